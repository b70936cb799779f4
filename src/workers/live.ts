import type { Setting } from '../../sim/studies/knob.ts';
import { LatestWins } from './latest.ts';
import type { Balanced, LiveAnswer, LiveOrder } from './live-protocol.ts';

/** How an order came out: what the worker answered, or that a newer order took its place. */
export type LiveOutcome = LiveAnswer | { readonly kind: 'cancelled' };

/** The part of a Worker that is used here. */
export interface LiveWorkerLike {
  postMessage(order: LiveOrder): void;
  terminate(): void;
  onmessage: ((event: MessageEvent<LiveAnswer>) => void) | null;
  onerror: ((event: ErrorEvent) => void) | null;
}

/** Starts the worker that finds balances. */
export function startLiveWorker(): LiveWorkerLike {
  return new Worker(new URL('./live.worker.ts', import.meta.url), { type: 'module', name: 'live' });
}

/** Stations of a crossing, as many as the command line takes; fewer while something is dragged that is slow to answer. */
const STATIONS = 400;
const ROUGH = 150;
/** What a frame or two of the screen leave for an answer, ms. */
const AT_HAND = 30;

interface Asked {
  readonly mode: Balanced;
  readonly document: unknown;
  readonly settings: readonly Setting[];
  readonly rough: boolean;
  readonly tell: (outcome: LiveOutcome) => void;
}

/** Has balances found away from the window, the newest order first. The worker starts with the first order. */
export class LiveSolver {
  readonly #start: () => LiveWorkerLike;
  readonly #queue: LatestWins<Asked>;
  #worker: LiveWorkerLike | undefined;
  #ticket = 0;
  #underWay: Asked | undefined;
  /** The document that the worker has read. */
  #read: unknown;
  #slow = false;

  constructor(start: () => LiveWorkerLike = startLiveWorker) {
    this.#start = start;
    this.#queue = new LatestWins<Asked>(
      (asked) => this.#send(asked),
      ({ tell }) => tell({ kind: 'cancelled' }),
    );
  }

  /** How a document stands or crosses its ground. Never rejects. */
  solve(document: unknown, mode: Balanced): Promise<LiveOutcome> {
    return new Promise((tell) => {
      this.#queue.ask({ mode, document, settings: [], rough: false, tell });
    });
  }

  /** The same with figures put in place. `tell` hears of it when the answer is there or a newer order took its place. */
  put(
    document: unknown,
    mode: Balanced,
    settings: readonly Setting[],
    tell: (outcome: LiveOutcome) => void,
  ): void {
    this.#queue.ask({ mode, document, settings, rough: this.#slow, tell });
  }

  /** Ends the worker if it is at work, and calls off what it was asked. */
  cancel(): void {
    const asked = this.#underWay;
    this.#queue.forget();
    if (asked === undefined) return;
    this.#drop();
    this.#finish(asked, { kind: 'cancelled' });
  }

  #send(asked: Asked): void {
    const worker = this.#worker ?? this.#fresh();
    this.#underWay = asked;
    this.#ticket += 1;
    const { mode, document, settings, rough } = asked;
    worker.postMessage({
      ticket: this.#ticket,
      mode,
      settings,
      stations: rough ? ROUGH : STATIONS,
      ...(document === this.#read ? {} : { document }),
    });
    this.#read = document;
  }

  #fresh(): LiveWorkerLike {
    const worker = this.#start();
    this.#worker = worker;
    this.#read = undefined;
    worker.onmessage = ({ data }) => {
      const asked = this.#underWay;
      if (asked === undefined || data.ticket !== this.#ticket) return;
      if (data.kind === 'refused') this.#read = undefined;
      if (data.kind === 'solved') this.#slow = this.#isSlow(asked.rough, data.took);
      this.#finish(asked, data);
    };
    worker.onerror = ({ message }) => {
      const asked = this.#underWay;
      this.#drop();
      if (asked !== undefined)
        this.#finish(asked, {
          kind: 'failed',
          ticket: this.#ticket,
          message: message || 'the solver could not be loaded',
        });
    };
    return worker;
  }

  /** Whether a whole answer takes too long while something is dragged; what once was slow must be well below to be quick. */
  #isSlow(rough: boolean, took: number): boolean {
    if (!rough) return took > AT_HAND;
    return took * (STATIONS / ROUGH) > 0.6 * AT_HAND;
  }

  #drop(): void {
    if (this.#worker !== undefined) {
      this.#worker.onmessage = null;
      this.#worker.onerror = null;
      this.#worker.terminate();
    }
    this.#worker = undefined;
    this.#read = undefined;
  }

  #finish(asked: Asked, outcome: LiveOutcome): void {
    this.#underWay = undefined;
    asked.tell(outcome);
    this.#queue.done();
  }
}
