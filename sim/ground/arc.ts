import type { Vec2 } from '../../shared/geometry/vec.ts';

/**
 * Widest turn between neighbouring points of a sampled arc, rad: the chord between them runs at most
 * radius·(1 − cos(turn/2)) under the arc, here 0.1 % of the radius.
 */
const widestTurn = 2 * Math.acos(1 - 0.001);

/**
 * Number of points with which an arc of that half-angle (rad) is drawn: the least even number of chords that keeps
 * 0.1 % of the radius, and one point more. Even, so that the crest is one of them.
 */
function arcPoints(half: number): number {
  return 2 * Math.max(1, Math.ceil(half / widestTurn)) + 1;
}

/**
 * The upper arc of a circle, from rear to front: `half` (rad, up to π/2) to either side of its crest. Lengths in m;
 * the circle's centre is `centre`. The points lie on the circle, so the chords between them lie under it, by at most
 * 0.1 % of the radius.
 */
export function crestArc(centre: Vec2, radius: number, half: number): Vec2[] {
  const n = arcPoints(half) - 1;
  return Array.from({ length: n + 1 }, (_, i) => {
    const angle = half * ((2 * i) / n - 1);
    return { x: centre.x + radius * Math.sin(angle), z: centre.z + radius * Math.cos(angle) };
  });
}
