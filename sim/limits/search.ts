/** What a search for the largest size came to; sizes in the unit that was searched in. */
export interface Found<T> {
  /** Largest size that passed below the first failure; 0 when nothing passed. */
  readonly passed: number;
  /** What the attempt at `passed` gave; undefined when nothing passed. */
  readonly at: T | undefined;
  /** Smallest size that failed and what it gave; undefined when nothing failed up to the largest size asked for. */
  readonly failed: { readonly size: number; readonly at: T } | undefined;
}

/** How to search. */
export interface Search {
  /** First size tried, and the last. */
  readonly least: number;
  readonly most: number;
  /** Factor from one size of the first scan to the next, above 1. */
  readonly growth: number;
  /** Relative width at which the bisection ends. */
  readonly tolerance: number;
}

/**
 * The size up to which attempts pass. Passing is not monotone (a log may stop a vehicle that rolls over a larger one),
 * so sizes are scanned from small to large by a constant factor; the first that fails closes the bracket, and bisection
 * narrows it to `tolerance`. What passes above the first failure does not count, and a failure between two neighbouring
 * sizes of the scan that both pass is not seen: `growth` says how narrow it would have to be.
 * When even the least size fails the bracket reaches down to nothing, and ends at `tolerance` times the least.
 */
export function largestPassed<T extends { readonly crosses: boolean }>(
  attempt: (size: number) => T,
  { least, most, growth, tolerance }: Search,
): Found<T> {
  let passed = 0;
  let at: T | undefined;
  for (let size = Math.min(least, most); ; size = Math.min(most, size * growth)) {
    const tried = attempt(size);
    if (!tried.crosses)
      return bisect(attempt, { size: passed, at }, { size, at: tried }, least * tolerance, tolerance);
    [passed, at] = [size, tried];
    if (size >= most) return { passed, at, failed: undefined };
  }
}

/**
 * Looks closer, with another way to attempt: the bracket that a coarse search found is opened a little, moved as far as it
 * has to be, and narrowed again.
 */
export function narrowed<T extends { readonly crosses: boolean }>(
  attempt: (size: number) => T,
  coarse: Found<T>,
  { least, most, tolerance }: Omit<Search, 'growth'>,
): Found<T> {
  const floor = least * tolerance;
  let width = 5 * tolerance;
  let high = Math.min(most, (coarse.failed?.size ?? most) * (1 + width));
  let above: { readonly size: number; readonly at: T } | undefined;
  let low = coarse.passed * (1 - width);
  let below: { readonly size: number; readonly at: T | undefined } = { size: 0, at: undefined };
  while (low > floor) {
    const tried = attempt(low);
    if (tried.crosses) {
      below = { size: low, at: tried };
      break;
    }
    above = { size: low, at: tried };
    width *= 2;
    low *= 1 - Math.min(0.5, width);
  }
  while (!above) {
    const tried = attempt(high);
    if (!tried.crosses) above = { size: high, at: tried };
    else if (high >= most) return { passed: high, at: tried, failed: undefined };
    else {
      below = { size: high, at: tried };
      width *= 2;
      high = Math.min(most, high * (1 + width));
    }
  }
  return bisect(attempt, below, above, floor, tolerance);
}

function bisect<T extends { readonly crosses: boolean }>(
  attempt: (size: number) => T,
  low: { readonly size: number; readonly at: T | undefined },
  high: { readonly size: number; readonly at: T },
  floor: number,
  tolerance: number,
): Found<T> {
  let [below, above] = [low, high];
  while (above.size - below.size > Math.max(tolerance * above.size, floor)) {
    const size = 0.5 * (below.size + above.size);
    const tried = attempt(size);
    if (tried.crosses) below = { size, at: tried };
    else above = { size, at: tried };
  }
  return { passed: below.size, at: below.at, failed: above };
}
