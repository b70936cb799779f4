import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { Worker } from 'node:worker_threads';
import type { BoundStudy } from '../../tuning/bind.ts';
import type { Outcome } from '../../tuning/sample.ts';
import { Pool } from './pool.ts';
import type { Work } from './worker.ts';

/** Workers that try designs of a study. */
export type StudyPool = Pool<Work, Outcome>;

/** A pool of so many workers; they are started when there is work for them. */
export function startPool(studies: readonly BoundStudy[], workers: number): StudyPool {
  return new Pool(workers, () => startWorker(studies));
}

/** In a package the worker is compiled; in a checkout it runs from its source, as the command does. */
function startWorker(studies: readonly BoundStudy[]): Worker {
  const source = new URL('./worker.ts', import.meta.url);
  const file = existsSync(fileURLToPath(source)) ? './worker-from-source.mjs' : './worker.js';
  return new Worker(new URL(file, import.meta.url), { workerData: studies });
}
