/**
 * The value below which a share of a rising list lies, with a straight line between neighbours: definition 7 of
 * R. Hyndman and Y. Fan, "Sample quantiles in statistical packages", The American Statistician 50 (1996). NaN of none.
 */
export function percentileOf(rising: ArrayLike<number>, share: number): number {
  if (rising.length === 0) return Number.NaN;
  const at = share * (rising.length - 1);
  const below = Math.floor(at);
  const low = rising[below] as number;
  const high = rising[Math.min(below + 1, rising.length - 1)] as number;
  return low + (at - below) * (high - low);
}

/** What a measure comes to over all draws, SI. */
export interface Percentiles {
  readonly count: number;
  readonly mean: number;
  readonly p5: number;
  readonly p50: number;
  readonly p95: number;
}

/** Percentiles of the values in any order; null of none. */
export function percentilesOf(values: ArrayLike<number>): Percentiles | null {
  if (values.length === 0) return null;
  const rising = Float64Array.from(values).sort();
  const mean = rising.reduce((sum, value) => sum + value, 0) / rising.length;
  const [p5, p50, p95] = [0.05, 0.5, 0.95].map((share) => percentileOf(rising, share)) as [
    number,
    number,
    number,
  ];
  return { count: rising.length, mean, p5, p50, p95 };
}
