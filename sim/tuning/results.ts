import type { Index } from '../chance/indices.ts';
import type { Probability } from '../chance/interval.ts';
import type { Percentiles } from '../chance/percentile.ts';
import type { BoundStudy } from './bound.ts';
import { judgeWords } from './criteria.ts';
import { type Design, figureOf } from './dial.ts';
import { takenBy } from './from-stock.ts';
import type { Reading } from './goal.ts';
import type { Outcome, Sample } from './sample.ts';
import { cellsOf, type Level, middleOf, type Tally } from './tally.ts';

/** A number of a design: SI value, or the word of a choice. */
export interface ShownNumber {
  readonly name: string;
  readonly unit: string;
  readonly value: number | string;
}

/** A design with what it came to. */
export interface ShownDesign {
  /** Number in the plan; −1 for today's. */
  readonly n: number;
  readonly numbers: readonly ShownNumber[];
  readonly goals: readonly (number | null)[];
  readonly holds: boolean;
  readonly violation: number;
  /** What it misses, the most first. */
  readonly misses: readonly { readonly asks: string; readonly by: number }[];
  readonly why: string | null;
  /** Parts that it takes from stock. */
  readonly takes?: readonly { readonly list: string; readonly item: string; readonly count: number }[];
  /** The same design driven, with inertia, where that was done. */
  readonly driven?: DrivenDesign;
  /** How sure it is, where vehicles were drawn of it. */
  readonly sure?: ShownSureness;
}

/** How sure a design is: vehicles drawn from the spreads of its figures. */
export interface ShownSureness {
  readonly draws: number;
  /** Draws that could not be judged; they count as failing. */
  readonly failed: number;
  /** The intervals are as narrow as was asked, or the most draws were made. */
  readonly end: 'narrow' | 'spent';
  /** That all criteria hold, and that each does, with its interval (95 %). */
  readonly all: Probability;
  readonly criteria: readonly (Probability & { readonly asks: string })[];
  /** Of each goal. */
  readonly goals: readonly (Percentiles | null)[];
  /** Which spread matters most to the first goal, the most first; empty where it was not looked for. */
  readonly matters: readonly { readonly name: string; readonly first: Index; readonly total: Index }[];
  /** Loads of the wheels along the crossing, N per axle line; null where no vehicle got. */
  readonly bands: readonly {
    readonly wheel: string;
    readonly p5: readonly (number | null)[];
    readonly p50: readonly (number | null)[];
    readonly p95: readonly (number | null)[];
  }[];
  /** Stations of the bands, m. */
  readonly stations: readonly number[];
}

/** What driving a design came to. */
export interface DrivenDesign extends Omit<ShownDesign, 'n' | 'numbers' | 'driven' | 'takes' | 'sure'> {}

/** One number of a study. */
export interface ShownDial {
  readonly name: string;
  readonly unit: string;
  /** Today's value, or its word; null where today's is none of its choices. */
  readonly now: number | string | null;
  /** Both ends of a stretch, or the values of a list. */
  readonly from: number | null;
  readonly to: number | null;
  readonly values: readonly (number | string)[] | null;
  /** What the first goal comes to over its values: how much it matters. */
  readonly levels: readonly Level[];
}

/** The field of the first goal over the first two numbers; cells without a design are left out. */
export interface ShownField {
  readonly columns: readonly { readonly at: number; readonly label: string }[];
  readonly rows: readonly { readonly at: number; readonly label: string }[];
  readonly values: readonly (readonly (number | null)[])[];
  readonly holds: readonly (readonly boolean[])[];
}

/** All that a study came to. Plain data; the same for any number of workers. */
export interface StudyResults {
  readonly title: string;
  readonly scenario: string;
  readonly vehicle: string;
  readonly method: string;
  readonly seed: number;
  readonly by: 'crawl' | 'drive';
  readonly dials: readonly ShownDial[];
  readonly goals: readonly {
    readonly name: string;
    readonly title: string;
    readonly unit: string;
    readonly want: 'more' | 'less';
    readonly over: 'mean' | 'worst';
  }[];
  readonly grounds: readonly { readonly name: string; readonly weight: number }[];
  /** Designs that were tried, that hold all criteria, and that could not be judged. */
  readonly tried: number;
  readonly held: number;
  readonly failed: number;
  /** How many designs each criterion rules out, the most first. */
  readonly rulesOut: readonly { readonly asks: string; readonly count: number }[];
  readonly failures: readonly { readonly why: string; readonly count: number }[];
  readonly today: ShownDesign;
  /** The best first; those that hold all criteria before those that do not. */
  readonly best: readonly ShownDesign[];
  /** The design that misses least, where none holds. */
  readonly leastViolated: ShownDesign | null;
  /** Designs that no other beats in all goals; where there are several goals. */
  readonly front: readonly ShownDesign[];
  readonly field: ShownField | null;
  /**
   * The design to take: the best that holds, driven too where that was done, and as sure as is wanted; null when there
   * is none.
   */
  readonly taken: ShownDesign | null;
  /** Probability that is wanted of it; null where nothing was drawn. */
  readonly wanted: number | null;
  /** Beside a robust study: the best design as drawn on paper, without chance. */
  readonly plain: ShownDesign | null;
  /** Where nothing in stock does it: what is nearest, and what to buy or make. */
  readonly buy: readonly string[];
}

/** What was found out besides the samples themselves. */
export interface Found {
  readonly today: Outcome;
  /** Of designs by their number in the plan. */
  readonly driven: ReadonlyMap<number, Outcome>;
  readonly drawn: ReadonlyMap<number, ShownSureness>;
  readonly plain?: Sample;
  readonly buy: readonly string[];
}

/** How many of the best designs are shown. */
const shownBest = 10;

/** The designs that may be taken, the best first: all criteria hold, driven too where they were driven. */
export function soundDesigns(
  study: BoundStudy,
  tally: Tally,
  driven: ReadonlyMap<number, Outcome>,
): readonly Sample[] {
  return tally.best.filter(({ holds, n }) => {
    const drive = driven.get(n);
    return holds && (study.confirm === 0 || drive?.holds === true);
  });
}

/** What a study came to, from its tally, what else was found, and what its goals are called. */
export function resultsOf(
  study: BoundStudy,
  tally: Tally,
  found: Found,
  about: readonly Pick<Reading, 'title' | 'unit'>[],
): StudyResults {
  const { document, scenario, dials, goals, grounds, by } = study;
  const asks = judgeWords(scenario.criteria);
  const show = (sample: Sample): ShownDesign => shown(study, asks, sample, found);
  const best = tally.best.slice(0, Math.max(shownBest, study.confirm)).map(show);
  const sound = soundDesigns(study, tally, found.driven);
  const wanted = document.sure?.wanted ?? null;
  const surely = ({ n }: Sample) => wanted === null || (found.drawn.get(n)?.all.value ?? 0) >= wanted;
  const taken = sound.find(surely);
  return {
    title: document.title,
    scenario: scenario.title,
    vehicle: scenario.vehicle.name,
    method: document.method.kind,
    seed: document.seed,
    by,
    dials: dialsOf(study, tally),
    goals: goals.map(({ text, want, over }, g) => ({
      name: text,
      title: about[g]?.title ?? text,
      unit: about[g]?.unit ?? '1',
      want,
      over,
    })),
    grounds: grounds.map(({ name, weight }) => ({ name, weight })),
    tried: tally.tried,
    held: tally.held,
    failed: tally.failed,
    rulesOut: rulesOutOf(asks, tally),
    failures: tally.reasons,
    today: {
      ...shown(study, asks, { n: -1, design: [], ...found.today }, found),
      numbers: todayNumbers(study),
    },
    best,
    leastViolated: tally.held > 0 || tally.leastViolated === undefined ? null : show(tally.leastViolated),
    front: goals.length < 2 ? [] : tally.front.samples.map(show),
    field: dials.length < 2 ? null : fieldOf(study, tally),
    taken: taken === undefined ? null : show(taken),
    wanted,
    plain:
      found.plain === undefined
        ? null
        : shown(study, asks, found.plain, { ...found, driven: new Map(), drawn: new Map() }),
    buy: found.buy,
  };
}

function dialsOf({ dials }: BoundStudy, tally: Tally): ShownDial[] {
  return dials.map((dial, d): ShownDial => {
    const { name, unit, now, values, turns } = dial;
    const word = turns.kind === 'options' && now !== null ? (turns.options[now]?.label ?? null) : now;
    const levels = tally.levels[d] ?? [];
    if (values.kind === 'list')
      return { name, unit, now: word, from: null, to: null, values: values.values, levels };
    return { name, unit, now, from: values.from, to: values.to, values: null, levels };
  });
}

/** How many designs each criterion rules out; getting across counts with the criterion that asks for it. */
function rulesOutOf(asks: readonly string[], tally: Tally): { asks: string; count: number }[] {
  const counts = new Map<string, number>();
  asks.forEach((text, c) => {
    counts.set(text, Math.max(counts.get(text) ?? 0, tally.missed[c] ?? 0));
  });
  return [...counts]
    .filter(([, count]) => count > 0)
    .map(([text, count]) => ({ asks: text, count }))
    .sort((a, b) => b.count - a.count);
}

/** The numbers of a design. */
export function numbersOfDesign({ dials }: BoundStudy, design: Design): ShownNumber[] {
  return dials.map((dial, d) => {
    const entry = design[d] as number;
    const value =
      dial.turns.kind === 'options' ? (dial.turns.options[entry]?.label ?? '') : figureOf(dial, entry);
    return { name: dial.name, unit: dial.unit, value };
  });
}

function todayNumbers({ dials }: BoundStudy): ShownNumber[] {
  return dials.map(({ name, unit, now, turns }) => {
    const word = turns.kind === 'options' && now !== null ? turns.options[now]?.label : now;
    return { name, unit, value: word ?? 'as it is' };
  });
}

function shown(
  study: BoundStudy,
  asks: readonly string[],
  sample: Sample,
  { driven: drives, drawn }: Pick<Found, 'driven' | 'drawn'>,
): ShownDesign {
  const { n, design } = sample;
  const [driven, sure] = [drives.get(n), drawn.get(n)];
  const numbers = design.length === 0 ? [] : numbersOfDesign(study, design);
  return {
    n,
    numbers,
    ...outcomeShown(asks, sample),
    ...(study.stock === undefined || design.length === 0 ? {} : { takes: takenBy(study.dials, design) }),
    ...(driven === undefined ? {} : { driven: outcomeShown(asks, driven) }),
    ...(sure === undefined ? {} : { sure }),
  };
}

function outcomeShown(
  asks: readonly string[],
  { goals, holds, violation, short, why, failed }: Outcome,
): DrivenDesign {
  const misses = new Map<string, number>();
  if (failed !== true)
    asks.forEach((text, c) => {
      misses.set(text, Math.max(misses.get(text) ?? 0, short[c] ?? 0));
    });
  return {
    goals,
    holds,
    violation,
    misses: [...misses]
      .filter(([, by]) => by > 0)
      .map(([text, by]) => ({ asks: text, by }))
      .sort((a, b) => b.by - a.by),
    why: why ?? null,
  };
}

function fieldOf({ dials }: BoundStudy, tally: Tally): ShownField | null {
  const [x, z] = dials;
  if (x === undefined || z === undefined) return null;
  const [columns, rows] = [cellsOf(x), cellsOf(z)];
  const values = Array.from({ length: rows }, () =>
    Array.from({ length: columns }, (): number | null => null),
  );
  const holds = Array.from({ length: rows }, () => Array.from({ length: columns }, () => false));
  for (const cell of tally.field) {
    (values[cell.row] as (number | null)[])[cell.column] = cell.value;
    (holds[cell.row] as boolean[])[cell.column] = cell.holds;
  }
  const middles = (dial: typeof x, count: number) =>
    Array.from({ length: count }, (_, c) => middleOf(dial, c));
  return { columns: middles(x, columns), rows: middles(z, rows), values, holds };
}
