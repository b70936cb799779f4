import { begin } from '../../searching/search.ts';
import type { BoundStudy } from '../../tuning/bound.ts';
import { type Design, spaceOf, todayIn } from '../../tuning/dial.ts';
import type { Trial } from '../../tuning/evaluate.ts';
import { buyWords, type FreedStudy } from '../../tuning/freed.ts';
import type { EntryOf } from '../../tuning/journal.ts';
import { told } from '../../tuning/rank.ts';
import { failedOutcome, type Outcome, type Sample } from '../../tuning/sample.ts';
import { Tally } from '../../tuning/tally.ts';
import type { JournalFile } from './journal-file.ts';
import { WorkerDied } from './pool.ts';
import type { StudyPool } from './start.ts';

/** Designs that are asked for at a time: many for each worker, so that none waits for the last of a batch for long. */
const batch = 512;

/** How far a study is. */
export interface Step {
  /** What is done: 'trying designs', 'driving the best'. */
  readonly what: string;
  readonly done: number;
  readonly all: number;
  /** The last one was computed now, not taken from a journal. */
  readonly now: boolean;
}

/** What trying designs needs. */
export interface Means {
  readonly pool: StudyPool;
  readonly journal: JournalFile;
  readonly progress: (step: Step) => void;
}

/** What came of all designs. */
export interface Tried {
  readonly tally: Tally;
  readonly today: Outcome;
  /** Designs that were driven, by their number in the plan. */
  readonly driven: ReadonlyMap<number, Outcome>;
  /** The best design as drawn on paper, beside a robust one. */
  readonly plain?: Sample;
  /** What to buy or make, where nothing in stock does it. */
  readonly buy: readonly string[];
}

/** One thing that is worked out: what the journal calls it, and what a worker is asked. */
export interface Piece {
  readonly of: EntryOf;
  readonly n: number;
  readonly design: Design | null;
  readonly trial: Trial;
  /** Of which study of the worker: 1 for the one with parts to buy. */
  readonly study?: number;
}

/**
 * Tries all designs of a study, in batches that the method asks for, and drives the best of a crawl. What the journal has
 * is not computed again. What is learned depends on the order of the plan alone, not on which worker was first.
 * @throws Stopped when the pool was stopped on the way; FolderError when the journal cannot be written
 */
export async function tryAll(study: BoundStudy, free: FreedStudy | undefined, means: Means): Promise<Tried> {
  const trial = { by: study.by };
  const first: Piece = { of: 'today', n: -1, design: null, trial };
  const [today] = await outcomesOf(study, means, "trying today's", 1, [first]);
  const tally = await searched(study, means, { of: 'sample', what: 'trying designs' });
  const best = await plainBest(study, means);
  return {
    tally,
    today: today as Outcome,
    driven: await drivenBest(study, tally, means),
    ...(best === undefined ? {} : { plain: best }),
    buy: tally.held > 0 || free === undefined ? [] : await toBuy(study, free, means),
  };
}

/** Goes through a search to its end. */
async function searched(
  study: BoundStudy,
  means: Means,
  { of, what }: { readonly of: 'sample' | 'plain' | 'free'; readonly what: string },
): Promise<Tally> {
  const { document, dials, goals, by } = study;
  const search = begin(spaceOf(dials), document.method, document.seed, { today: todayIn(dials) });
  const tally = new Tally(study);
  const trial: Trial = search.inner === undefined ? { by } : { by, inner: search.inner };
  for (let n = 0; ; ) {
    const points = search.ask(batch);
    if (points.length === 0) return tally;
    const pieces = points.map((design, i) => ({ of, n: n + i, design, trial, study: of === 'free' ? 1 : 0 }));
    const outcomes = await outcomesOf(study, means, what, search.size, pieces, n);
    for (const [i, design] of points.entries()) {
      const outcome = outcomes[i] as Outcome;
      search.tell(design, told(goals, outcome));
      tally.add({ n: n + i, design, ...outcome });
    }
    n += points.length;
  }
}

/** Beside a robust study: the best design as drawn on paper, by as many designs. */
async function plainBest(study: BoundStudy, means: Means): Promise<Sample | undefined> {
  const { method } = study.document;
  if (method.kind !== 'robust-optimum') return undefined;
  const document = { ...study.document, method: { kind: 'optimum', designs: method.designs } as const };
  const tally = await searched({ ...study, document }, means, {
    of: 'plain',
    what: 'trying designs as drawn',
  });
  return tally.best[0];
}

async function drivenBest(
  study: BoundStudy,
  tally: Tally,
  means: Means,
): Promise<ReadonlyMap<number, Outcome>> {
  const best = tally.best.filter(({ holds }) => holds).slice(0, study.confirm);
  const pieces = best.map(({ n, design }): Piece => ({ of: 'driven', n, design, trial: { by: 'drive' } }));
  const driven = await outcomesOf(study, means, 'driving the best', best.length, pieces);
  return new Map(best.map(({ n }, i) => [n, driven[i] as Outcome]));
}

/** Nothing in stock does it: looks for figures that would, and says what is nearest to them. */
async function toBuy(study: BoundStudy, free: FreedStudy, means: Means): Promise<readonly string[]> {
  const tally = await searched(free.study, means, { of: 'free', what: 'looking for what would do it' });
  const [best] = tally.best;
  return best?.holds === true ? buyWords(study, free, best.design) : [];
}

/**
 * What pieces of work come to, in their order, whoever does them. All of them are waited for, also where some fail: what
 * is under way gets into the journal. The first failure is thrown then.
 * @param all how many there will be in all, of which `before` are done
 */
export async function outcomesOf(
  study: BoundStudy,
  { pool, journal, progress }: Means,
  what: string,
  all: number,
  pieces: readonly Piece[],
  before = 0,
): Promise<Outcome[]> {
  let done = before;
  const count = (now: boolean): void => {
    done += 1;
    progress({ what, done, all, now });
  };
  const settled = await Promise.allSettled(
    pieces.map(async (piece): Promise<Outcome> => {
      const known = journal.find(piece.of, piece.n);
      if (known !== undefined && sameDesign(known.design, piece.design)) {
        count(false);
        return known.outcome;
      }
      const outcome = await worked(study, pool, piece);
      journal.append({ of: piece.of, n: piece.n, design: piece.design, outcome });
      count(true);
      return outcome;
    }),
  );
  return settled.map((each) => {
    if (each.status === 'rejected') throw each.reason;
    return each.value;
  });
}

function worked(
  { goals, scenario }: BoundStudy,
  pool: StudyPool,
  { design, trial, study = 0 }: Piece,
): Promise<Outcome> {
  return pool.run({ design, trial, study }).catch((error: unknown): Outcome => {
    if (!(error instanceof WorkerDied)) throw error;
    const count = { goals: goals.length, short: scenario.criteria.length + 1 };
    return failedOutcome(`its worker died over it twice: ${error.message}`, count);
  });
}

const sameDesign = (a: readonly number[] | null, b: readonly number[] | null): boolean =>
  a === b || (a !== null && b !== null && a.length === b.length && a.every((value, i) => value === b[i]));
