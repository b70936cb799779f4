/** A speed that was tried, m/s forward or rearward, and whether all criteria held. */
export interface Tried {
  readonly speed: number;
  readonly holds: boolean;
}

/** What a sweep over speeds came to. */
export interface Sweep<T extends Tried> {
  /** Everything that was tried, the slowest first. */
  readonly tried: readonly T[];
  /** The fastest speed at which, and below which, all that was tried held; undefined when the slowest one fails. */
  readonly fastest: T | undefined;
  /** The slowest speed that fails. */
  readonly fails: T | undefined;
}

/**
 * Tries speeds, then halves the gap between the fastest safe one and the slowest that fails `halvings` times. A speed above
 * one that fails is never safe, even where its criteria hold: a vehicle has to get there.
 * @param speeds sizes, m/s
 */
export function sweepSpeeds<T extends Tried>(
  speeds: readonly number[],
  halvings: number,
  at: (speed: number) => T,
): Sweep<T> {
  const tried = [...new Set(speeds)].sort((a, b) => a - b).map(at);
  for (let i = 0; i < halvings; i++) {
    const { fastest, fails } = ends(tried);
    if (fastest === undefined || fails === undefined) break;
    tried.push(at((Math.abs(fastest.speed) + Math.abs(fails.speed)) / 2));
    tried.sort((a, b) => Math.abs(a.speed) - Math.abs(b.speed));
  }
  return { tried, ...ends(tried) };
}

function ends<T extends Tried>(tried: readonly T[]): Pick<Sweep<T>, 'fastest' | 'fails'> {
  const first = tried.findIndex(({ holds }) => !holds);
  return first < 0
    ? { fastest: tried.at(-1), fails: undefined }
    : { fastest: tried[first - 1], fails: tried[first] };
}
