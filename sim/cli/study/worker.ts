/** One worker of a study: it is given the study once, then designs to try, one after another. */
import { parentPort, workerData } from 'node:worker_threads';
import { record } from '../../dynamics/drive.ts';
import type { BoundStudy } from '../../tuning/bind.ts';
import type { Design } from '../../tuning/dial.ts';
import { type Trial, Tryout } from '../../tuning/evaluate.ts';
import type { Outcome } from '../../tuning/sample.ts';
import type { Done, Given } from './pool.ts';

/** What a worker is given to do. */
export interface Work {
  /** null for today's. */
  readonly design: Design | null;
  readonly trial: Trial;
  /** Of which of the studies that the worker was given; the first when left out. */
  readonly study?: number;
}

const tryouts = (workerData as readonly BoundStudy[]).map((study) => new Tryout(study, record));

parentPort?.on('message', ({ id, work }: Given<Work>) => {
  const result = tryouts[work.study ?? 0]?.at(work.design, work.trial);
  if (result === undefined) throw new RangeError(`there is no study number ${work.study}`);
  parentPort?.postMessage({ id, result } satisfies Done<Outcome>);
});
