import { figure, type Shown, withUnit } from './figures.ts';
import type { Tracks } from './tracks.ts';

/** Least and greatest value of a column; NaN for an empty one. */
export function extremes(values: Float64Array): { readonly least: number; readonly greatest: number } {
  let least = Number.POSITIVE_INFINITY;
  let greatest = Number.NEGATIVE_INFINITY;
  for (const v of values) {
    if (v < least) least = v;
    if (v > greatest) greatest = v;
  }
  return values.length > 0 ? { least, greatest } : { least: Number.NaN, greatest: Number.NaN };
}

/** What the bands say, in words: how light and how heavy each wheel became, and where it was off the ground. */
export function bandsInWords(tracks: Tracks, force: Shown, length: Shown): string {
  return tracks.wheels
    .map(({ name, load, standing, lifts }) => {
      const { least, greatest } = extremes(load);
      const share = (v: number) =>
        standing > 0 ? `${Math.round((v / standing) * 100)} %` : withUnit(v, force);
      const off =
        lifts.length === 0
          ? 'always on the ground'
          : `off the ground ${lifts.length === 1 ? 'once' : `${lifts.length} times`}, at station ${lifts
              .slice(0, 8)
              .map((l) => withUnit(l.station.from, length))
              .join(', ')}${lifts.length > 8 ? ' and more' : ''}`;
      return `${name}: from ${share(least)} to ${share(greatest)} of its standing load, ${off}.`;
    })
    .join(' ');
}

/** What a strip shows, in words: title, unit, and each curve's least and greatest value. */
export function stripInWords(
  title: string,
  shown: Shown,
  curves: readonly { name: string; values: Float64Array }[],
): string {
  const parts = curves.map(({ name, values }) => {
    const { least, greatest } = extremes(values);
    return `${name} ${figure(least, shown)} to ${withUnit(greatest, shown)}`;
  });
  return `${title}: ${parts.join('; ')}.`;
}
