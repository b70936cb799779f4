import type { Vec2 } from '../../shared/geometry/vec.ts';

/**
 * Points per wave with which cosines are drawn. A chord between neighbours misses the curve by at most
 * (height/2)·(1 − cos(π/n)), where height is from trough to crest: under 0.1 % of it for n = 52, and a multiple of
 * four puts crests, troughs and steepest places on points.
 */
export const wavePoints = 52;

/** Points of a curve z(turn) over `waves` waves of the given length, m; turn goes from 0 to 2π·waves, rad. */
export function wavePath(length: number, waves: number, z: (turn: number) => number): Vec2[] {
  const n = wavePoints * waves;
  return Array.from({ length: n + 1 }, (_, i) => ({
    x: (length * i) / wavePoints,
    z: z((2 * Math.PI * (i % wavePoints)) / wavePoints),
  }));
}
