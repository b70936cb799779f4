import type { Answer, Order, Progress } from './protocol.ts';

/** How a run came out: what the worker answered last, or that it was called off. */
export type Outcome = Exclude<Answer, { kind: 'progress' }> | { readonly kind: 'cancelled' };

/** The part of a Worker that is used here. */
export interface WorkerLike {
  postMessage(order: Order): void;
  terminate(): void;
  onmessage: ((event: MessageEvent<Answer>) => void) | null;
  onerror: ((event: ErrorEvent) => void) | null;
}

/** Starts the worker that drives. It loads the engine at once, so that it is ready when the first order comes. */
export function startWorker(): WorkerLike {
  return new Worker(new URL('./simulate.worker.ts', import.meta.url), { type: 'module', name: 'simulate' });
}

/**
 * Has documents driven away from the window, one at a time. A run can't hear us while it computes, so calling it off
 * means ending its worker and starting a fresh one.
 */
export class Solver {
  readonly #start: () => WorkerLike;
  #worker: WorkerLike;
  #broken = false;
  #ticket = 0;
  #settle: ((outcome: Outcome) => void) | undefined;

  constructor(start: () => WorkerLike = startWorker) {
    this.#start = start;
    this.#worker = this.#fresh();
  }

  /** A worker that breaks down before its first order (its script can't be loaded) is not given one. */
  #fresh(): WorkerLike {
    const worker = this.#start();
    this.#broken = false;
    worker.onerror = () => {
      this.#broken = true;
    };
    return worker;
  }

  /**
   * Drives a document; a run that is still under way is called off first. Never rejects. `telling`: what the worker has
   * read is wanted too.
   */
  solve(document: unknown, tell: (progress: Progress) => void, telling = false): Promise<Outcome> {
    this.cancel();
    if (this.#broken) this.#replaceWorker();
    this.#ticket += 1;
    const ticket = this.#ticket;
    const worker = this.#worker;
    return new Promise((resolve) => {
      this.#settle = resolve;
      worker.onmessage = ({ data }) => {
        if (data.ticket !== ticket) return;
        if (data.kind === 'progress') tell(data.progress);
        else this.#finish(data);
      };
      worker.onerror = (event) => {
        this.#replaceWorker();
        this.#finish({ kind: 'failed', ticket, message: event.message || 'the engine could not be loaded' });
      };
      worker.postMessage({ ticket, document, ...(telling ? { telling } : {}) });
    });
  }

  /** Calls off the run that is under way, if there is one. */
  cancel(): void {
    if (this.#settle === undefined) return;
    this.#replaceWorker();
    this.#finish({ kind: 'cancelled' });
  }

  #replaceWorker(): void {
    this.#worker.onmessage = null;
    this.#worker.onerror = null;
    this.#worker.terminate();
    this.#worker = this.#fresh();
  }

  #finish(outcome: Outcome): void {
    const settle = this.#settle;
    this.#settle = undefined;
    settle?.(outcome);
  }
}
