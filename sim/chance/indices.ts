import { sobol } from '../searching/sobol.ts';
import { streamOf } from '../searching/stream.ts';
import type { Draw } from './monte-carlo.ts';
import { percentileOf } from './percentile.ts';
import { settingsAt, type Uncertain } from './spreads.ts';

/** How much of the variance of a measure one uncertain thing makes, with the interval of that. */
export interface Index {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

/** Which spread matters most. */
export interface Indices {
  /** Variance of the measure over the draws, SI squared. */
  readonly variance: number;
  /** Rows that could be evaluated whole, of those that were drawn. */
  readonly rows: number;
  readonly of: readonly {
    /** By itself: by this share the variance falls, on the mean, once it is known. */
    readonly first: Index;
    /** With all that it does together with others: this share is left when all but it is known. */
    readonly total: Index;
  }[];
}

/** The least that a study of indices needs to know. */
interface Shape {
  /** Rows of the plan; powers of two are spread most evenly. */
  readonly rows: number;
  readonly seed: number;
}

/** Draws per row: A, B, and A with one column of B for each uncertain thing. */
export const drawsPerRow = (dimensions: number): number => dimensions + 2;

/** Shares of a draw of the plan: number = row · (d + 2) + place, places A, B, A with column 0 of B, … */
export function planShares(dimensions: number, seed: number): (number: number) => readonly number[] {
  const points = sobol(2 * dimensions, seed);
  return (number) => {
    const point = points(Math.floor(number / drawsPerRow(dimensions)));
    const place = number % drawsPerRow(dimensions);
    const [a, b] = [point.slice(0, dimensions), point.slice(dimensions)];
    if (place < 2) return place === 0 ? a : b;
    return a.map((share, i) => (i === place - 2 ? (b[i] as number) : share));
  };
}

/**
 * The draws that indices take: rows · (d + 2). The first draw of row j is draw j of a `MonteCarlo` with the same seed,
 * since a Sobol' sequence of more dimensions begins with the same ones.
 * @throws RangeError for no uncertain thing, or more than half as many as a Sobol' sequence has dimensions
 */
export function indexDraws(uncertain: readonly Uncertain[], { rows, seed }: Shape): readonly Draw[] {
  const shares = planShares(uncertain.length, seed);
  return Array.from({ length: rows * drawsPerRow(uncertain.length) }, (_, number) => ({
    number,
    settings: settingsAt(uncertain, shares(number)),
  }));
}

/** Bootstrap samples behind an interval. */
const again = 400;

/**
 * Variance-based indices from what the draws of `indexDraws` came to (by number; null where one has no value, which
 * takes its whole row out). First-order: Vᵢ = V − ½·mean (f(B) − f(A with column i of B))²; total: ½·mean (f(A) − f(A with
 * column i of B))²; both over V. Intervals (95 %) by drawing rows again, with repeats (B. Efron 1979).
 * Source: M. Jansen, "Analysis of variance designs for model output", Comput. Phys. Commun. 117 (1999) 35–43; plan and
 * comparison: A. Saltelli et al., Comput. Phys. Commun. 181 (2010) 259–270.
 * @returns undefined where nothing varies, or too few rows are whole
 */
export function indicesOf(
  values: readonly (number | null)[],
  dimensions: number,
  seed: number,
): Indices | undefined {
  const wide = drawsPerRow(dimensions);
  const all = Array.from({ length: Math.floor(values.length / wide) }, (_, j) =>
    values.slice(j * wide, (j + 1) * wide),
  );
  const rows = all.filter((row): row is number[] =>
    row.every((value) => value !== null && Number.isFinite(value)),
  );
  if (rows.length < 4) return undefined;
  const found = estimate(rows, dimensions);
  // beside the values themselves a variance of rounding is none
  const size = rows.reduce((most, row) => Math.max(most, Math.abs(row[0] as number)), 0);
  if (!(found.variance > (1e-12 * size) ** 2)) return undefined;
  const draw = streamOf(seed, 'bootstrap');
  const repeats = Array.from({ length: again }, () =>
    estimate(
      rows.map(() => rows[Math.floor(draw() * rows.length)] as number[]),
      dimensions,
    ),
  ).filter(({ variance }) => variance > 0);
  const index = (value: number, of: (one: Estimate) => number): Index => {
    const rising = repeats.map(of).sort((a, b) => a - b);
    return { value, low: percentileOf(rising, 0.025), high: percentileOf(rising, 0.975) };
  };
  return {
    variance: found.variance,
    rows: rows.length,
    of: Array.from({ length: dimensions }, (_, i) => ({
      first: index(found.first[i] as number, ({ first }) => first[i] as number),
      total: index(found.total[i] as number, ({ total }) => total[i] as number),
    })),
  };
}

interface Estimate {
  readonly variance: number;
  readonly first: readonly number[];
  readonly total: readonly number[];
}

function estimate(rows: readonly (readonly number[])[], dimensions: number): Estimate {
  const count = rows.length;
  const sum = (of: (row: readonly number[]) => number) => rows.reduce((total, row) => total + of(row), 0);
  const at = (row: readonly number[], place: number) => row[place] as number;
  const mean = sum((row) => at(row, 0) + at(row, 1)) / (2 * count);
  const variance = sum((row) => (at(row, 0) - mean) ** 2 + (at(row, 1) - mean) ** 2) / (2 * count - 1);
  const half = (from: 0 | 1, i: number) => sum((row) => (at(row, from) - at(row, i + 2)) ** 2) / (2 * count);
  const places = Array.from({ length: dimensions }, (_, i) => i);
  return {
    variance,
    first: places.map((i) => (variance - half(1, i)) / variance),
    total: places.map((i) => half(0, i) / variance),
  };
}
