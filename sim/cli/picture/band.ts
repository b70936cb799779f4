import type { Envelope } from './pixels.ts';

/** A stretch of pixel columns, `to` excluded. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}

/** Steps of colour per unit of share: finer than the eye tells apart, coarse enough to join columns. */
const STEPS = 48;

/**
 * A band as stretches of equal share: of each column the load that is farthest from the standing load counts (shares
 * clamped to 0 and 2, as the colours are), so that a short lift or a short blow is seen.
 * @param standing standing load, N; when it is 0 (a wheel that carries nothing) every load counts as heavy
 */
export function bandOf(
  { least, greatest }: Envelope,
  standing: number,
): (Stretch & { readonly share: number })[] {
  const stretches: { from: number; to: number; share: number }[] = [];
  for (let c = 0; c < least.length; c++) {
    const low = shareOf(least[c] ?? Number.NaN, standing);
    const high = shareOf(greatest[c] ?? Number.NaN, standing);
    if (Number.isNaN(low)) continue;
    const share = Math.round((1 - low >= high - 1 ? low : high) * STEPS) / STEPS;
    const last = stretches.at(-1);
    if (last !== undefined && last.to === c && last.share === share) last.to = c + 1;
    else stretches.push({ from: c, to: c + 1, share });
  }
  return stretches;
}

/** Load as a share of the standing load, clamped to 0 and 2. */
function shareOf(load: number, standing: number): number {
  if (Number.isNaN(load)) return load;
  if (standing <= 0) return load <= 0 ? 1 : 2;
  return Math.min(2, Math.max(0, load / standing));
}

/** Stretches in which the wheel carried nothing at some moment. */
export function offColumns({ least }: Envelope): Stretch[] {
  const stretches: { from: number; to: number }[] = [];
  least.forEach((low, c) => {
    if (!(low <= 0)) return;
    const last = stretches.at(-1);
    if (last !== undefined && last.to === c) last.to = c + 1;
    else stretches.push({ from: c, to: c + 1 });
  });
  return stretches;
}
