import type { StudyNews, StudyOrder } from './study-protocol.ts';

/** Begins a job in a worker of its own. `tell` hears of it until the way to end it, which is returned, is taken. */
export type Begin = (order: StudyOrder, tell: (news: StudyNews) => void) => () => void;

/** Starts a worker for one job. */
export function startStudyWorker(): Worker {
  return new Worker(new URL('./study.worker.ts', import.meta.url), { type: 'module', name: 'study' });
}

/** Workers for jobs, one for each; some can be started before they are needed, because loading takes its time. */
export class StudyWorkers {
  readonly #start: () => Worker;
  readonly #spare: Worker[] = [];

  constructor(start: () => Worker = startStudyWorker) {
    this.#start = start;
  }

  /** Has so many workers ready. */
  warm(count: number): void {
    while (this.#spare.length < count) this.#spare.push(this.#start());
  }

  /** Begins a job; its worker ends with its last news. */
  readonly begin: Begin = (order, tell) => {
    const worker = this.#spare.shift() ?? this.#start();
    worker.onmessage = ({ data }: MessageEvent<StudyNews>) => {
      if (data.kind !== 'progress' && data.kind !== 'tile') worker.terminate();
      tell(data);
    };
    worker.onerror = ({ message }) => {
      worker.terminate();
      tell({ kind: 'failed', message: message || 'the solver could not be loaded' });
    };
    worker.postMessage(order);
    return () => {
      worker.onmessage = null;
      worker.onerror = null;
      worker.terminate();
    };
  };
}
