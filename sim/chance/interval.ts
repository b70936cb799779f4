import { betaQuantile } from './special.ts';

/** A probability that was counted, with the interval in which it lies as surely as was asked. */
export interface Probability {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

/**
 * Share of draws that hold, with its interval after Clopper and Pearson (1934): ends are quantiles of beta
 * distributions, so that for independent draws it covers the true probability at least as often as asked, near 0 and 1
 * too, where the interval of Wilson falls short. Low-discrepancy points are not independent: shares counted with
 * them scatter less, as a rule, so that the interval is on the safe side. It is the safe side that is wanted of "all
 * wheels stay loaded with 95 %".
 * @param held of `count` draws
 * @param confidence 0.95 for a 95 % interval
 */
export function clopperPearson(held: number, count: number, confidence = 0.95): Probability {
  if (count === 0) return { value: Number.NaN, low: 0, high: 1 };
  const beyond = (1 - confidence) / 2;
  return {
    value: held / count,
    low: held === 0 ? 0 : betaQuantile(beyond, held, count - held + 1),
    high: held === count ? 1 : betaQuantile(1 - beyond, held + 1, count - held),
  };
}

/** Whether an interval is no wider than asked. */
export const isNarrow = ({ low, high }: Probability, width: number): boolean => high - low <= width;
