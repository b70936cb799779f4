import { studentQuantile } from '../chance/special.ts';

/** A figure with the interval in which it lies with 95 %. */
export interface Estimate {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

/** A series cut into equal segments: the places where each begins, and the end of the last one. */
export type Cuts = readonly number[];

/** `count` segments of a series of so many samples, as equal as can be. */
export const cutsOf = (samples: number, count: number): Cuts =>
  Array.from({ length: count + 1 }, (_, i) => Math.round((samples * i) / count));

/** Mean of a series over each segment. */
export function segmentMeans(series: ArrayLike<number>, cuts: Cuts): number[] {
  return cuts.slice(1).map((to, s) => {
    const from = cuts[s] as number;
    let sum = 0;
    for (let i = from; i < to; i++) sum += series[i] as number;
    return sum / (to - from);
  });
}

/** Correlation of neighbours within lists of values: 0 for values without memory. */
export function neighbourCorrelation(lists: readonly (readonly number[])[]): number {
  const all = lists.flat();
  const mean = all.reduce((sum, value) => sum + value, 0) / all.length;
  const pairs = lists.flatMap((list) =>
    list.slice(1).map((value, i) => [(list[i] as number) - mean, value - mean]),
  );
  const variance = all.reduce((sum, value) => sum + (value - mean) ** 2, 0) / all.length;
  if (pairs.length === 0 || !(variance > 0)) return 0;
  return pairs.reduce((sum, [a = 0, b = 0]) => sum + a * b, 0) / pairs.length / variance;
}

/** Most segments that are tried, and fewest that are left. */
const [mostSegments, fewestSegments] = [64, 8] as const;

/**
 * How many segments a ride is cut into: 64, and half as many as long as neighbours still go together (their correlation is
 * above 1.645/√pairs, which chance alone does once in twenty), down to 8 in all.
 * @param series the same figure of each ride, such as squared accelerations
 * @param shortest fewest samples of a segment
 */
export function segmentsPerRide(
  series: readonly ArrayLike<number>[],
  shortest: number,
): { readonly perRide: number; readonly correlation: number } {
  const samples = Math.min(...series.map(({ length }) => length));
  let perRide = Math.max(1, Math.min(mostSegments, Math.floor(samples / shortest)));
  for (;;) {
    const means = series.map((each) => segmentMeans(each, cutsOf(each.length, perRide)));
    const correlation = neighbourCorrelation(means);
    const pairs = Math.max(1, series.length * (perRide - 1));
    const half = Math.floor(perRide / 2);
    if (correlation <= 1.645 / Math.sqrt(pairs) || half < 1 || half * series.length < fewestSegments)
      return { perRide, correlation };
    perRide = half;
  }
}

/** Mean of independent values with its 95 % interval by Student's t; no interval of a single one. */
export function meanOf(values: readonly number[]): Estimate {
  const count = values.length;
  const value = values.reduce((sum, each) => sum + each, 0) / count;
  if (count < 2) return { value, low: Number.NEGATIVE_INFINITY, high: Number.POSITIVE_INFINITY };
  const variance = values.reduce((sum, each) => sum + (each - value) ** 2, 0) / (count - 1);
  const half = studentQuantile(0.975, count - 1) * Math.sqrt(variance / count);
  return { value, low: value - half, high: value + half };
}

/** An estimate through a rising function of it, its low end not below `least`. */
export function through(estimate: Estimate, of: (value: number) => number, least = 0): Estimate {
  const { value, low, high } = estimate;
  return { value: of(value), low: of(Math.max(least, low)), high: of(high) };
}
