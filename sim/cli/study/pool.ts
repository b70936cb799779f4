import type { Worker } from 'node:worker_threads';

/** What goes to a worker, and what comes back: the work by its number. */
export interface Given<T> {
  readonly id: number;
  readonly work: T;
}
export interface Done<R> {
  readonly id: number;
  readonly result: R;
}

/** Work that waits or is under way. */
interface Job<T, R> extends Given<T> {
  readonly resolve: (result: R) => void;
  readonly reject: (error: Error) => void;
  deaths: number;
}

/** A worker and the work that it was given, the one that it is at first. */
interface Hand<T, R> {
  readonly worker: Worker;
  readonly jobs: Job<T, R>[];
}

/** Work was given up because its worker died over it, twice. */
export class WorkerDied extends Error {
  override readonly name = 'WorkerDied';
}

/** The pool was stopped before this work was begun. */
export class Stopped extends Error {
  override readonly name = 'Stopped';
}

/** Jobs that a worker holds: one that it is at, one to go on with at once. */
const held = 2;

/** Times that work may end its worker before it is given up. */
const mostDeaths = 2;

/** Workers that may end one after another before it is clear that none can work at all. */
const mostFruitless = 6;

/**
 * Workers that share work. Each has one piece that it is at and one to go on with; when a worker dies another one takes
 * its place, and what it was at is tried once more.
 */
export class Pool<T, R> {
  readonly #start: () => Worker;
  readonly #size: number;
  readonly #waiting: Job<T, R>[] = [];
  #hands: Hand<T, R>[] = [];
  #next = 0;
  #stopped = false;
  /** Workers that ended one after another without any result between them. */
  #fruitless = 0;

  constructor(size: number, start: () => Worker) {
    this.#size = size;
    this.#start = start;
  }

  /** Gives work to the next free worker. @throws (rejects) WorkerDied, Stopped */
  run(work: T): Promise<R> {
    if (this.#stopped) return Promise.reject(new Stopped('the pool was stopped'));
    return new Promise((resolve, reject) => {
      this.#waiting.push({ id: this.#next++, work, resolve, reject, deaths: 0 });
      this.#deal();
    });
  }

  /** Takes no more work: what is not begun is given back (rejected with Stopped), what is under way goes on. */
  drain(): void {
    this.#stopped = true;
    for (const job of this.#waiting.splice(0)) job.reject(new Stopped('the pool was stopped'));
    for (const { jobs } of this.#hands)
      for (const job of jobs.splice(1)) job.reject(new Stopped('the pool was stopped'));
  }

  /** Ends all workers. */
  async close(): Promise<void> {
    this.drain();
    const hands = this.#hands;
    this.#hands = [];
    for (const { jobs } of hands)
      for (const job of jobs.splice(0)) job.reject(new Stopped('the pool was stopped'));
    await Promise.all(hands.map(({ worker }) => worker.terminate()));
  }

  #deal(): void {
    while (this.#waiting.length > 0) {
      const idle = this.#hands.find(({ jobs }) => jobs.length === 0);
      if (idle === undefined && this.#hands.length < this.#size) {
        this.#hire();
        continue;
      }
      const hand = idle ?? this.#hands.find(({ jobs }) => jobs.length < held);
      const job = hand && this.#waiting.shift();
      if (hand === undefined || job === undefined) return;
      hand.jobs.push(job);
      hand.worker.postMessage({ id: job.id, work: job.work } satisfies Given<T>);
    }
  }

  #hire(): void {
    const worker = this.#start();
    const hand: Hand<T, R> = { worker, jobs: [] };
    this.#hands.push(hand);
    worker.on('message', ({ id, result }: Done<R>) => {
      const at = hand.jobs.findIndex((job) => job.id === id);
      const [job] = at < 0 ? [] : hand.jobs.splice(at, 1);
      this.#fruitless = 0;
      job?.resolve(result);
      if (!this.#stopped) this.#deal();
    });
    worker.on('error', (error) => this.#bury(hand, error instanceof Error ? error.message : String(error)));
    worker.on('exit', () => this.#bury(hand, 'it ended'));
  }

  /** A worker is gone: what it was at is tried again by another, once; what it had not begun simply goes to another. */
  #bury(hand: Hand<T, R>, why: string): void {
    if (!this.#hands.includes(hand)) return;
    this.#hands = this.#hands.filter((other) => other !== hand);
    const [under, ...rest] = hand.jobs.splice(0);
    if (this.#stopped) {
      for (const job of [under, ...rest]) job?.reject(new Stopped('the pool was stopped'));
      return;
    }
    this.#fruitless += 1;
    if (this.#fruitless >= mostFruitless) {
      this.#stopped = true;
      for (const job of [under, ...rest, ...this.#waiting.splice(0)])
        job?.reject(new Error(`workers end before they give any result: ${why}`));
      return;
    }
    if (under !== undefined) under.deaths += 1;
    if (under !== undefined && under.deaths >= mostDeaths) under.reject(new WorkerDied(why));
    else if (under !== undefined) rest.unshift(under);
    this.#waiting.unshift(...rest);
    this.#deal();
  }
}
