import { begin } from '../../sim/searching/search.ts';
import type { BoundStudy } from '../../sim/tuning/bind.ts';
import { type Design, spaceOf, todayIn } from '../../sim/tuning/dial.ts';
import type { Entry } from '../../sim/tuning/journal.ts';
import { told } from '../../sim/tuning/rank.ts';
import { failedOutcome, type Outcome, type Sample } from '../../sim/tuning/sample.ts';
import { Tally } from '../../sim/tuning/tally.ts';
import type { Work } from '../workers/trial-protocol.ts';
import { WorkerDied } from '../workers/trials.ts';

/** Designs that are asked for ahead of the one that is waited for. */
const ahead = 64;

/** Most samples that are kept whole, for tables and pictures. */
export const mostKept = 20_000;

/** What was computed before, and where more of it goes. */
export interface Journal {
  find(of: Entry['of'], n: number): Entry | undefined;
  append(entry: Entry): void;
}

/** How far a study is. */
export interface Step {
  readonly what: 'trying' | 'driving';
  readonly done: number;
  /** Exact for a plan, at most so many for a search. */
  readonly all: number;
  /** Those of `done` that were computed now, not taken from the journal. */
  readonly computed: number;
}

/** What a study works with. */
export interface CourseTools {
  run(work: Work): Promise<Outcome>;
  readonly journal: Journal;
  progress(step: Step): void;
}

/** A study as far as it has come; grows while it runs. */
export interface Findings {
  readonly study: BoundStudy;
  readonly tally: Tally;
  /** In the order of the plan, the first `mostKept`. */
  readonly samples: Sample[];
  today: Outcome | undefined;
  readonly driven: Map<number, Outcome>;
}

/** What a study knows before its first design. */
export const noFindings = (study: BoundStudy): Findings => ({
  study,
  tally: new Tally(study),
  samples: [],
  today: undefined,
  driven: new Map(),
});

/**
 * Tries all designs of a study, a window of them at a time, and drives the best of a crawl. What the journal has is not
 * computed again. Outcomes are learned from in the order of the plan, so nothing depends on which worker was first.
 * @throws Stopped when the workers were stopped on the way
 */
export async function tryAll(findings: Findings, tools: CourseTools): Promise<void> {
  const { study, tally, samples, driven } = findings;
  const { document, dials, goals, by } = study;
  const search = begin(spaceOf(dials), document.method, document.seed, { today: todayIn(dials) });
  const counter = new Counter(tools, 'trying', search.size);
  const today = outcomeOf(study, tools, counter, { of: 'today', n: -1, design: null }, by);
  today.catch(() => undefined);
  const waiting: { n: number; design: Design; outcome: Promise<Outcome> }[] = [];
  for (let n = 0; ; ) {
    for (const design of search.ask(ahead - waiting.length)) {
      const outcome = outcomeOf(study, tools, counter, { of: 'sample', n, design }, by);
      // It is waited for in its turn; until then a stop is not an error that nobody hears of.
      outcome.catch(() => undefined);
      waiting.push({ n, design, outcome });
      n += 1;
    }
    const first = waiting.shift();
    if (first === undefined) break;
    const outcome = await first.outcome;
    search.tell(first.design, told(goals, outcome));
    const sample: Sample = { n: first.n, design: first.design, ...outcome };
    tally.add(sample);
    if (samples.length < mostKept) samples.push(sample);
    findings.today ??= tools.journal.find('today', -1)?.outcome;
  }
  findings.today = await today;
  const best = tally.best.filter(({ holds }) => holds).slice(0, study.confirm);
  if (best.length === 0) return;
  const driving = new Counter(tools, 'driving', best.length);
  const outcomes = await Promise.all(
    best.map(({ n, design }) => outcomeOf(study, tools, driving, { of: 'driven', n, design }, 'drive')),
  );
  for (const [i, { n }] of best.entries()) driven.set(n, outcomes[i] as Outcome);
}

/** What a design comes to: from the journal, or from a worker and into the journal. */
async function outcomeOf(
  { goals, scenario }: BoundStudy,
  { run, journal }: CourseTools,
  counter: Counter,
  { of, n, design }: Omit<Entry, 'outcome' | 'design'> & { readonly design: Design | null },
  by: Work['by'],
): Promise<Outcome> {
  const known = journal.find(of, n);
  if (known !== undefined && sameDesign(known.design, design)) {
    counter.count(false);
    return known.outcome;
  }
  const outcome = await run({ design, by }).catch((error: unknown): Outcome => {
    if (!(error instanceof WorkerDied)) throw error;
    const count = { goals: goals.length, short: scenario.criteria.length + 1 };
    return failedOutcome(`its worker ended over it twice: ${error.message}`, count);
  });
  journal.append({ of, n, design, outcome });
  counter.count(true);
  return outcome;
}

const sameDesign = (a: Design | null, b: Design | null): boolean =>
  a === b || (a !== null && b !== null && a.length === b.length && a.every((value, i) => value === b[i]));

/** Counts what is done and tells it. */
class Counter {
  readonly #tell: CourseTools['progress'];
  readonly #what: Step['what'];
  readonly #all: number;
  #done = 0;
  #computed = 0;

  constructor({ progress }: CourseTools, what: Step['what'], all: number) {
    this.#tell = progress;
    this.#what = what;
    // Today's design is one more.
    this.#all = what === 'trying' ? all + 1 : all;
  }

  count(computed: boolean): void {
    this.#done += 1;
    if (computed) this.#computed += 1;
    this.#tell({ what: this.#what, done: this.#done, all: this.#all, computed: this.#computed });
  }
}
