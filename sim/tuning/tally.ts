import type { BoundStudy } from './bound.ts';
import { type Dial, figureOf, todayIn } from './dial.ts';
import { compare, Front } from './rank.ts';
import type { Sample } from './sample.ts';

/** How many of the best designs, and of different reasons of failure, are kept. */
const [mostBest, mostReasons] = [50, 20] as const;
/** Cells along a stretch without steps. */
const cells = 24;
/** Most samples that a scatter of them shows. */
const mostShown = 2000;

/** What a number does to the first goal, at one of its values or in one cell of its stretch. */
export interface Level {
  /** SI value in the middle of the cell; index of a choice. */
  readonly at: number;
  readonly label: string;
  readonly count: number;
  readonly mean: number;
  readonly least: number;
  readonly most: number;
}

/** One cell of the field over the first two numbers. */
export interface Cell {
  readonly column: number;
  readonly row: number;
  /** The best design in it. */
  readonly value: number | null;
  readonly holds: boolean;
}

/** Adds samples up as they come in, in the order of the plan. What it keeps does not grow with their number. */
export class Tally {
  readonly #study: BoundStudy;
  readonly #alone: boolean;
  readonly #today: readonly number[];
  readonly front: Front;
  tried = 0;
  held = 0;
  failed = 0;
  /** Samples that miss each criterion; the last one: do not get across. */
  readonly missed: number[];
  #best: Sample[] = [];
  #near: Sample | undefined;
  readonly #reasons = new Map<string, number>();
  readonly #levels: Map<number, { count: number; sum: number; least: number; most: number }>[];
  readonly #cells = new Map<number, Sample>();
  #shown: Sample[] = [];
  #every = 1;

  constructor(study: BoundStudy) {
    this.#study = study;
    this.#alone = study.document.method.kind === ('one-at-a-time' as string);
    this.#today = todayIn(study.dials);
    this.front = new Front(study.goals);
    this.missed = Array.from({ length: study.scenario.criteria.length + 1 }, () => 0);
    this.#levels = study.dials.map(() => new Map());
  }

  add(sample: Sample): void {
    this.tried += 1;
    if (sample.holds) this.held += 1;
    if (sample.failed === true) this.#fail(sample.why ?? '');
    else
      sample.short.forEach((short, c) => {
        if (short > 0) this.missed[c] = (this.missed[c] as number) + 1;
      });
    this.#rank(sample);
    this.front.add(sample);
    this.#level(sample);
    this.#cell(sample);
    this.#show(sample);
  }

  /** The best designs, those that hold before those that do not. */
  get best(): readonly Sample[] {
    return this.#best;
  }

  /** The design that misses least, where it could be judged. */
  get leastViolated(): Sample | undefined {
    return this.#near;
  }

  /** Reasons of failure, the most frequent first. */
  get reasons(): readonly { readonly why: string; readonly count: number }[] {
    return [...this.#reasons].map(([why, count]) => ({ why, count })).sort((a, b) => b.count - a.count);
  }

  /** A share of all samples, evenly over the plan, for pictures. */
  get shown(): readonly Sample[] {
    return this.#shown;
  }

  /** For each number: what the first goal comes to over its values. */
  get levels(): readonly (readonly Level[])[] {
    return this.#levels.map((levels, d) => {
      const dial = this.#study.dials[d] as Dial;
      return [...levels]
        .sort(([a], [b]) => a - b)
        .map(([key, { count, sum, least, most }]) => ({
          ...middleOf(dial, key),
          count,
          mean: sum / count,
          least,
          most,
        }));
    });
  }

  /** The best design of every cell over the first two numbers. */
  get field(): readonly Cell[] {
    const [first] = this.#study.dials;
    const columns = first === undefined ? 1 : cellsOf(first);
    return [...this.#cells]
      .sort(([a], [b]) => a - b)
      .map(([key, sample]) => ({
        column: key % columns,
        row: Math.floor(key / columns),
        value: sample.goals[0] ?? null,
        holds: sample.holds,
      }));
  }

  #fail(why: string): void {
    this.failed += 1;
    const known = this.#reasons.has(why) || this.#reasons.size < mostReasons;
    const reason = known ? why : 'other reasons';
    this.#reasons.set(reason, (this.#reasons.get(reason) ?? 0) + 1);
  }

  #rank(sample: Sample): void {
    const { goals } = this.#study;
    if (sample.failed !== true && (this.#near === undefined || sample.violation < this.#near.violation))
      this.#near = sample;
    const last = this.#best.at(-1);
    if (sample.failed === true) return;
    if (last !== undefined && this.#best.length >= mostBest && compare(goals, sample, last) >= 0) return;
    if (this.#best.some(({ design }) => sameDesign(design, sample.design))) return;
    this.#best = [...this.#best, sample].sort((a, b) => compare(goals, a, b)).slice(0, mostBest);
  }

  #level({ design, goals }: Sample): void {
    const value = goals[0] ?? null;
    if (value === null) return;
    this.#study.dials.forEach((dial, d) => {
      if (this.#alone && design.some((at, other) => other !== d && at !== this.#today[other])) return;
      const key = cellOf(dial, design[d] as number);
      const level = this.#levels[d]?.get(key) ?? { count: 0, sum: 0, least: value, most: value };
      this.#levels[d]?.set(key, {
        count: level.count + 1,
        sum: level.sum + value,
        least: Math.min(level.least, value),
        most: Math.max(level.most, value),
      });
    });
  }

  #cell(sample: Sample): void {
    const [x, z] = this.#study.dials;
    if (x === undefined || z === undefined) return;
    const key = cellOf(x, sample.design[0] as number) + cellsOf(x) * cellOf(z, sample.design[1] as number);
    const there = this.#cells.get(key);
    if (there === undefined || compare(this.#study.goals, sample, there) < 0) this.#cells.set(key, sample);
  }

  #show(sample: Sample): void {
    if (sample.n % this.#every === 0) this.#shown.push(sample);
    if (this.#shown.length <= mostShown) return;
    this.#every *= 2;
    this.#shown = this.#shown.filter(({ n }) => n % this.#every === 0);
  }
}

const sameDesign = (a: readonly number[], b: readonly number[]): boolean =>
  a.every((value, i) => value === b[i]);

/** Number of cells along a number: its values, at most `cells` of them for a stretch. */
export function cellsOf({ values }: Dial): number {
  if (values.kind === 'list') return values.values.length;
  return values.kind === 'integer' ? Math.min(cells, values.to - values.from + 1) : cells;
}

function cellOf(dial: Dial, entry: number): number {
  const { values } = dial;
  if (values.kind === 'list') return entry;
  const count = cellsOf(dial);
  const way = values.to - values.from + (values.kind === 'integer' ? 1 : 0);
  return Math.min(count - 1, Math.max(0, Math.floor((count * (entry - values.from)) / way)));
}

/** SI value in the middle of a cell (of a list its own), and the word for a choice. */
export function middleOf(dial: Dial, cell: number): { readonly at: number; readonly label: string } {
  const { values, turns } = dial;
  if (values.kind === 'list')
    return {
      at: figureOf(dial, cell),
      label: turns.kind === 'options' ? (turns.options[cell]?.label ?? '') : '',
    };
  return { at: values.from + ((cell + 0.5) / cellsOf(dial)) * (values.to - values.from), label: '' };
}
