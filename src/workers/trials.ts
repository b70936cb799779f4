import type { BoundStudy } from '../../sim/tuning/bind.ts';
import type { Outcome } from '../../sim/tuning/sample.ts';
import type { About, TrialNews, TrialOrder, Work } from './trial-protocol.ts';

/** The part of a Worker that is used here. */
export interface TrialWorker {
  postMessage(order: TrialOrder): void;
  terminate(): void;
  onmessage: ((event: MessageEvent<TrialNews>) => void) | null;
  onerror: ((event: ErrorEvent) => void) | null;
}

/** Starts a worker that tries designs. */
export function startTrialWorker(): TrialWorker {
  return new Worker(new URL('./trial.worker.ts', import.meta.url), { type: 'module', name: 'trial' });
}

/**
 * Names this build of the program, as far as it computes designs: the name of this script's file has the mark of
 * all that it starts in it. A journal of another build is not gone on with.
 */
export const program: string = new URL(import.meta.url).pathname.split('/').at(-1) ?? '';

/** The pool was closed before this work was done. */
export class Stopped extends Error {
  override readonly name = 'Stopped';
}

/** Work was given up because its worker ended over it twice. */
export class WorkerDied extends Error {
  override readonly name = 'WorkerDied';
}

interface Job {
  readonly order: Exclude<TrialOrder, { kind: 'study' }>;
  readonly resolve: (news: TrialNews) => void;
  readonly reject: (error: Error) => void;
  deaths: number;
}

interface Hand {
  readonly worker: TrialWorker;
  /** The one that it is at, and one to go on with at once. */
  readonly jobs: Job[];
}

/** Jobs that a worker holds, and times that one may end its worker before it is given up. */
const [held, mostDeaths] = [2, 2] as const;

/** Workers that share the designs of one study. What a worker was at when it ended is tried once more by another. */
export class Trials {
  readonly #study: BoundStudy;
  readonly #size: number;
  readonly #start: () => TrialWorker;
  readonly #waiting: Job[] = [];
  #hands: Hand[] = [];
  #next = 0;
  #paused = false;
  #closed = false;

  /** @param size workers at once; they are started when there is work for them */
  constructor(study: BoundStudy, size: number, start: () => TrialWorker = startTrialWorker) {
    this.#study = study;
    this.#size = size;
    this.#start = start;
  }

  /** What a design comes to. @throws (rejects) Stopped, WorkerDied */
  async run(work: Work): Promise<Outcome> {
    const news = await this.#ask((id) => ({ kind: 'work', id, work }));
    if (news.kind !== 'outcome') throw new Error('a worker gave another answer than was asked for');
    return news.outcome;
  }

  /** What the goals are called. @throws (rejects) Stopped, WorkerDied */
  async about(): Promise<About> {
    const news = await this.#ask((id) => ({ kind: 'about', id }));
    if (news.kind !== 'about') throw new Error('a worker gave another answer than was asked for');
    return news.about;
  }

  /** Begins nothing new; what is under way is finished. */
  pause(): void {
    this.#paused = true;
  }

  goOn(): void {
    this.#paused = false;
    this.#deal();
  }

  /** Ends all workers; what is not done is given back. */
  close(): void {
    this.#closed = true;
    for (const { worker, jobs } of this.#hands.splice(0)) {
      worker.onmessage = null;
      worker.onerror = null;
      worker.terminate();
      this.#waiting.push(...jobs);
    }
    for (const job of this.#waiting.splice(0)) job.reject(new Stopped('the study was stopped'));
  }

  #ask(order: (id: number) => Job['order']): Promise<TrialNews> {
    if (this.#closed) return Promise.reject(new Stopped('the study was stopped'));
    return new Promise((resolve, reject) => {
      this.#next += 1;
      this.#waiting.push({ order: order(this.#next), resolve, reject, deaths: 0 });
      this.#deal();
    });
  }

  #deal(): void {
    while (this.#waiting.length > 0 && !this.#paused && !this.#closed) {
      const idle = this.#hands.find(({ jobs }) => jobs.length === 0);
      if (idle === undefined && this.#hands.length < this.#size) {
        this.#hire();
        continue;
      }
      const hand = idle ?? this.#hands.find(({ jobs }) => jobs.length < held);
      const job = hand && this.#waiting.shift();
      if (hand === undefined || job === undefined) return;
      hand.jobs.push(job);
      hand.worker.postMessage(job.order);
    }
  }

  #hire(): void {
    const worker = this.#start();
    const hand: Hand = { worker, jobs: [] };
    this.#hands.push(hand);
    worker.onmessage = ({ data }) => {
      const at = hand.jobs.findIndex(({ order }) => order.id === data.id);
      const [job] = at < 0 ? [] : hand.jobs.splice(at, 1);
      job?.resolve(data);
      this.#deal();
    };
    worker.onerror = ({ message }) => this.#bury(hand, message || 'a worker could not be loaded');
    worker.postMessage({ kind: 'study', study: this.#study });
  }

  /** A worker is gone: what it was at is tried once more; what it had not begun simply goes to another. */
  #bury(hand: Hand, why: string): void {
    hand.worker.terminate();
    this.#hands = this.#hands.filter((other) => other !== hand);
    const [under, ...rest] = hand.jobs.splice(0);
    if (under !== undefined) under.deaths += 1;
    if (under !== undefined && under.deaths >= mostDeaths) under.reject(new WorkerDied(why));
    else if (under !== undefined) rest.unshift(under);
    this.#waiting.unshift(...rest);
    this.#deal();
  }
}
