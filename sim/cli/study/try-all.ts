import { begin, type Search } from '../../searching/search.ts';
import type { BoundStudy } from '../../tuning/bind.ts';
import { type Design, spaceOf, todayIn } from '../../tuning/dial.ts';
import type { Entry } from '../../tuning/journal.ts';
import { told } from '../../tuning/rank.ts';
import { failedOutcome, type Outcome } from '../../tuning/sample.ts';
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
  /** Those of `done` that were computed now, not taken from a journal. */
  readonly computed: number;
}

/** What trying all designs needs. */
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
}

/**
 * Tries all designs of a study, in batches that the method asks for, and drives the best of a crawl. What the journal has
 * is not computed again. What is learned depends on the order of the plan alone, not on which worker was first.
 * @throws Stopped when the pool was stopped on the way; FolderError when the journal cannot be written
 */
export async function tryAll(study: BoundStudy, means: Means): Promise<Tried> {
  const { document, dials, goals } = study;
  const search: Search = begin(spaceOf(dials), document.method, document.seed, { today: todayIn(dials) });
  const tally = new Tally(study);
  const counter = new Counter(means);
  const all = search.size;
  counter.begin('trying designs', all);
  const today = await outcomeOf(study, means, counter, { of: 'today', n: -1, design: null }, study.by);
  for (let n = 0; ; ) {
    const points = search.ask(batch);
    if (points.length === 0) break;
    const outcomes = await allOf(
      points.map((design, i) =>
        outcomeOf(study, means, counter, { of: 'sample', n: n + i, design }, study.by),
      ),
    );
    for (const [i, design] of points.entries()) {
      const outcome = outcomes[i] as Outcome;
      search.tell(design, told(goals, outcome));
      tally.add({ n: n + i, design, ...outcome });
    }
    n += points.length;
  }
  const best = tally.best.filter(({ holds }) => holds).slice(0, study.confirm);
  counter.begin('driving the best', best.length);
  const driven = await allOf(
    best.map(({ n, design }) => outcomeOf(study, means, counter, { of: 'driven', n, design }, 'drive')),
  );
  return { tally, today, driven: new Map(best.map(({ n }, i) => [n, driven[i] as Outcome])) };
}

/** Waits for all, also where some fail: what is under way gets into the journal. The first failure is thrown then. */
async function allOf<T>(promises: readonly Promise<T>[]): Promise<T[]> {
  const settled = await Promise.allSettled(promises);
  return settled.map((each) => {
    if (each.status === 'rejected') throw each.reason;
    return each.value;
  });
}

/** What a design comes to: from the journal, or from a worker and into the journal. */
async function outcomeOf(
  { goals, scenario }: BoundStudy,
  { pool, journal }: Means,
  counter: Counter,
  { of, n, design }: Omit<Entry, 'outcome' | 'design'> & { readonly design: Design | null },
  by: 'crawl' | 'drive',
): Promise<Outcome> {
  const known = journal.find(of, n);
  if (known !== undefined && sameDesign(known.design, design)) {
    counter.count(false);
    return known.outcome;
  }
  const outcome = await pool.run({ design, by }).catch((error: unknown): Outcome => {
    if (!(error instanceof WorkerDied)) throw error;
    const count = { goals: goals.length, short: scenario.criteria.length + 1 };
    return failedOutcome(`its worker died over it twice: ${error.message}`, count);
  });
  journal.append({ of, n, design, outcome });
  counter.count(true);
  return outcome;
}

const sameDesign = (a: readonly number[] | null, b: readonly number[] | null): boolean =>
  a === b || (a !== null && b !== null && a.length === b.length && a.every((value, i) => value === b[i]));

/** Counts what is done and tells it. */
class Counter {
  readonly #tell: Means['progress'];
  #what = '';
  #all = 0;
  #done = 0;
  #computed = 0;

  constructor({ progress }: Means) {
    this.#tell = progress;
  }

  begin(what: string, all: number): void {
    [this.#what, this.#all, this.#done, this.#computed] = [what, all, 0, 0];
  }

  count(computed: boolean): void {
    this.#done += 1;
    if (computed) this.#computed += 1;
    this.#tell({ what: this.#what, done: this.#done, all: this.#all, computed: this.#computed });
  }
}
