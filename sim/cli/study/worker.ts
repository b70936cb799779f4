/** One worker of a study: it is given the study once, then designs to try, one after another. */
import { parentPort, workerData } from 'node:worker_threads';
import { record } from '../../dynamics/drive.ts';
import type { BoundStudy } from '../../tuning/bind.ts';
import type { Design } from '../../tuning/dial.ts';
import { Tryout } from '../../tuning/evaluate.ts';
import type { Outcome } from '../../tuning/sample.ts';
import type { Done, Given } from './pool.ts';

/** What a worker is given to do. */
export interface Work {
  /** null for today's. */
  readonly design: Design | null;
  readonly by: 'crawl' | 'drive';
}

const tryout = new Tryout(workerData as BoundStudy, record);

parentPort?.on('message', ({ id, work }: Given<Work>) => {
  const result = tryout.at(work.design, { by: work.by });
  parentPort?.postMessage({ id, result } satisfies Done<Outcome>);
});
