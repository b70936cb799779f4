/** What was found at one place of a search. */
export interface Tried<T> {
  readonly at: number;
  /** How far over the limit: 0 at it, negative while it holds; infinite where it fails without a measure. */
  readonly over: number;
  readonly found: T;
}

/** Most evaluations of one search: bisection alone gets from 1 to 1e-12 in 40. */
const most = 60;

/**
 * The place between one that holds and one that does not at which something is just at its limit: `near` of it, still
 * holding, or narrowed to `width`. Regula falsi with halved ends (Illinois; Dowell & Jarratt 1971, from memory), and
 * bisection where one end has no measure.
 * @returns the last place that holds and the first that does not
 */
export function narrow<T>(
  attempt: (at: number) => Tried<T>,
  holds: Tried<T>,
  fails: Tried<T>,
  { near, width }: { readonly near: number; readonly width: number },
): { readonly holds: Tried<T>; readonly fails: Tried<T> } {
  let [low, high] = [holds, fails];
  let [atLow, atHigh] = [low.over, high.over];
  for (let n = 0; n < most && low.over < -near && Math.abs(high.at - low.at) > width; n++) {
    const share = Number.isFinite(atHigh) && n % 8 !== 7 ? -atLow / (atHigh - atLow) : 0.5;
    const inside = Math.min(0.98, Math.max(0.02, share - 0.25 * near));
    const tried = attempt(low.at + inside * (high.at - low.at));
    if (tried.over <= 0) {
      [low, atLow] = [tried, tried.over];
      atHigh /= 2;
    } else {
      [high, atHigh] = [tried, tried.over];
      atLow /= 2;
    }
  }
  return { holds: low, fails: high };
}
