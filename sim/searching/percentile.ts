import { failedOutcome, type Outcome } from './outcome.ts';

/**
 * One outcome of many samples of a design: of each goal, and of the violation, the value that the given share of the
 * samples reaches or betters; a sample that failed is worse than any. With 20 samples and 0.95 the 19th of them.
 * A violation of 0 then says that at least this share of the samples hold all criteria.
 * The rank is the nearest above (⌈share·n⌉), which never flatters. Source: nearest-rank percentile, texts on statistics.
 * @param percentile above 0, at most 1
 * @throws RangeError without samples
 */
export function percentileOutcome(samples: readonly Outcome[], percentile: number): Outcome {
  const sound = samples.filter(({ goals }) => goals !== null);
  // Rounding must not push a whole product (0.95·20) above itself.
  const rank = Math.max(1, Math.ceil(percentile * samples.length - 1e-9));
  if (samples.length === 0) throw new RangeError('a percentile needs at least one sample');
  if (rank > sound.length) return failedOutcome;
  const at = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[rank - 1] as number;
  const count = sound[0]?.goals?.length ?? 0;
  return {
    goals: Array.from({ length: count }, (_, g) => at(sound.map(({ goals }) => goals?.[g] as number))),
    violation: at(sound.map(({ violation }) => violation)),
  };
}
