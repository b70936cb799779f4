import type { Checked, Problem } from '../../shared/problem.ts';
import type { Ground } from '../../sim/ground/ground.ts';
import type { Mechanism } from '../../sim/mechanism/mechanism.ts';
import type { Solved } from '../solved.ts';
import type { Progress } from '../workers/protocol.ts';
import type { Outcome } from '../workers/solver.ts';

/** What can be known of a document without driving it. */
export interface Drawn {
  readonly mechanism: Mechanism;
  readonly ground: Ground;
  /** Name of the vehicle. */
  readonly vehicle: string;
  /** Station at which it begins, m. */
  readonly start: number;
  /** What the run must hold to, a sentence each. */
  readonly asks: readonly string[];
}

/** What the desk is doing with the newest document. */
export type Phase =
  | { readonly kind: 'idle' }
  /** A change came in; the run starts when no further one follows. */
  | { readonly kind: 'waiting' }
  | { readonly kind: 'running'; readonly progress: Progress }
  | { readonly kind: 'cancelled' }
  | { readonly kind: 'failed'; readonly message: string };

/** A run with how long it took. */
export interface DoneRun extends Solved {
  /** ms in the engine. */
  readonly took: number;
}

export interface DeskState {
  readonly phase: Phase;
  /** The newest good document, not yet driven perhaps. */
  readonly drawn: Drawn | undefined;
  /** The run on show. */
  readonly solved: DoneRun | undefined;
  /** The run that the one on show is held against. */
  readonly before: DoneRun | undefined;
  /** `before` stays what it is when further runs come in. */
  readonly pinned: boolean;
  /** What is wrong with the newest document. */
  readonly problems: readonly Problem[];
  /** The run on show is not the newest document's. */
  readonly stale: boolean;
}

/** What the desk works with; tests hand in their own. */
export interface DeskTools {
  /** Reads and compiles a document in the window. */
  prepare(document: unknown): Checked<Drawn>;
  solver: { solve(document: unknown, tell: (progress: Progress) => void): Promise<Outcome>; cancel(): void };
  /** Calls back after `ms`; returns the way to stop it. */
  later(ms: number, then: () => void): () => void;
}

/** How long an edit waits for the next one before it is driven, ms: about the pace of held arrow keys. */
export const DEBOUNCE = 150;

const EMPTY: DeskState = {
  phase: { kind: 'idle' },
  drawn: undefined,
  solved: undefined,
  before: undefined,
  pinned: false,
  problems: [],
  stale: false,
};

/**
 * Turns the newest document into the run on show: checks it at once, drives it in the worker, keeps the run before it
 * to be compared with. Holds runs, which are nobody's document, so it is not a store of documents.
 */
export class Desk {
  #state: DeskState = EMPTY;
  readonly #tools: DeskTools;
  readonly #watchers = new Set<() => void>();
  #forget: () => void = () => undefined;
  #document: unknown;

  constructor(tools: DeskTools) {
    this.#tools = tools;
  }

  /** The present state; the same object until something changes. */
  readonly state = (): DeskState => this.#state;

  /** Calls `tell` after every change; returns the way to stop. */
  readonly watch = (tell: () => void): (() => void) => {
    this.#watchers.add(tell);
    return () => {
      this.#watchers.delete(tell);
    };
  };

  /** Takes a document that was just opened: earlier runs are of no interest to it. Driven without waiting. */
  open(document: unknown): void {
    this.#change({ solved: undefined, drawn: undefined, before: undefined, pinned: false });
    this.#take(document, 0);
  }

  /** Takes a change of the open document. A run under way is called off. */
  revise(document: unknown): void {
    this.#take(document, DEBOUNCE);
  }

  /** Drives the newest document once more, after it was cancelled or failed. */
  again(): void {
    this.#take(this.#document, 0);
  }

  /** Calls the run off; what is on show stays. */
  cancel(): void {
    this.#forget();
    this.#tools.solver.cancel();
    this.#change({ phase: { kind: 'cancelled' } });
  }

  /** Keeps the run on show to hold all further ones against. */
  keep(): void {
    if (this.#state.solved !== undefined) this.#change({ before: this.#state.solved, pinned: true });
  }

  /** Lets go of the run that the one on show is held against. */
  clear(): void {
    this.#change({ before: undefined, pinned: false });
  }

  #take(document: unknown, wait: number): void {
    this.#document = document;
    this.#forget();
    this.#tools.solver.cancel();
    const prepared = this.#tools.prepare(document);
    const { problems } = prepared;
    const stale = this.#state.solved !== undefined;
    if (!prepared.ok) {
      this.#change({ problems, stale, phase: { kind: 'idle' } });
      return;
    }
    this.#change({ problems, stale, drawn: prepared.value, phase: { kind: 'waiting' } });
    const begin = () => void this.#drive(document, prepared.value);
    if (wait === 0) begin();
    else this.#forget = this.#tools.later(wait, begin);
  }

  async #drive(document: unknown, drawn: Drawn): Promise<void> {
    this.#change({ phase: { kind: 'running', progress: { time: 0, station: 0, share: 0 } } });
    const outcome = await this.#tools.solver.solve(document, (progress) =>
      this.#change({ phase: { kind: 'running', progress } }),
    );
    if (document !== this.#document || outcome.kind === 'cancelled') return;
    if (outcome.kind === 'refused') this.#change({ problems: outcome.problems, phase: { kind: 'idle' } });
    else if (outcome.kind === 'failed') this.#change({ phase: { kind: 'failed', message: outcome.message } });
    else this.#show({ ...drawn, ...outcome });
  }

  #show({ mechanism, ground, recording, report, took }: DoneRun): void {
    const { solved: last, before, pinned } = this.#state;
    this.#change({
      phase: { kind: 'idle' },
      solved: { mechanism, ground, recording, report, took },
      before: pinned ? before : last,
      stale: false,
    });
  }

  #change(change: Partial<DeskState>): void {
    this.#state = { ...this.#state, ...change };
    for (const tell of this.#watchers) tell();
  }
}
