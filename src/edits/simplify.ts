import type { Vec2 } from '../../shared/geometry/vec.ts';

/** Distance of p from the stretch a–b, m. */
function away(p: Vec2, a: Vec2, b: Vec2): number {
  const dx = b.x - a.x;
  const dz = b.z - a.z;
  const square = dx * dx + dz * dz;
  const t = square === 0 ? 0 : Math.max(0, Math.min(1, ((p.x - a.x) * dx + (p.z - a.z) * dz) / square));
  return Math.hypot(p.x - a.x - t * dx, p.z - a.z - t * dz);
}

/**
 * A line with as few of its points as keep it within `tolerance` (m) of all that are left out; both ends stay. Ramer
 * (1972) and Douglas & Peucker (1973), by a loop, so that a line of 200,000 points fills no stack. Our own twenty lines:
 * the packages that do this have rested for years and know neither our points nor such lines.
 */
export function simplified(points: readonly Vec2[], tolerance: number): readonly Vec2[] {
  const kept = new Set([0, points.length - 1]);
  const stretches: [number, number][] = [[0, points.length - 1]];
  for (let stretch = stretches.pop(); stretch !== undefined; stretch = stretches.pop()) {
    const [from, to] = stretch;
    const [a, b] = [points[from], points[to]];
    if (a === undefined || b === undefined) continue;
    let farthest = from;
    let most = tolerance;
    for (let i = from + 1; i < to; i++) {
      const far = away(points[i] as Vec2, a, b);
      if (far > most) [farthest, most] = [i, far];
    }
    if (farthest === from) continue;
    kept.add(farthest);
    stretches.push([from, farthest], [farthest, to]);
  }
  return points.filter((_, i) => kept.has(i));
}

/** The points of a line drawn by hand that lead forward: where the hand went back, the line waits until it is past again. */
export function forward(points: readonly Vec2[]): readonly Vec2[] {
  let reached = Number.NEGATIVE_INFINITY;
  return points.filter(({ x, z }) => {
    if (!Number.isFinite(x) || !Number.isFinite(z) || x < reached) return false;
    reached = x;
    return true;
  });
}
