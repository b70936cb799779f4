import { distance, type Vec2 } from '../../shared/geometry/vec.ts';

/** What a place may be drawn to. */
export interface SnapOptions {
  /** Pitch of the grid, m; left out for none. */
  readonly pitch?: number;
  /** Where the grid begins, m; the drawing's origin when left out. */
  readonly origin?: Vec2;
  /** Other points, m. */
  readonly points: readonly Vec2[];
  /** How near is near, m: some pixels at the present zoom. */
  readonly reach: number;
}

/** A place after snapping: what drew it, and the point that it was aligned with. */
export interface Snapped {
  readonly at: Vec2;
  readonly to?: 'grid' | 'point' | 'level' | 'upright';
  readonly with?: Vec2;
}

/** The value of a list nearest to a number within reach; undefined when none is. */
function nearest<T>(items: readonly T[], away: (item: T) => number, reach: number): T | undefined {
  let best: T | undefined;
  let least = reach;
  for (const item of items) {
    const far = away(item);
    if (far <= least) [best, least] = [item, far];
  }
  return best;
}

/** The nearest multiple of the pitch, free of the noise of doubles: 0.3, not 0.30000000000000004. */
function multiple(value: number, pitch: number, origin: number): number {
  const at = origin + Math.round((value - origin) / pitch) * pitch;
  return Number(at.toPrecision(12)) + 0;
}

/**
 * Draws a place to what lies near: another point first, then the height or the station of one (`level`, `upright`; along
 * the free direction the grid still counts), then the grid. Without anything near the place stays.
 * @param to m, drawing
 */
export function snap(to: Vec2, { pitch = 0, origin = { x: 0, z: 0 }, points, reach }: SnapOptions): Snapped {
  const point = nearest(points, (p) => distance(p, to), reach);
  if (point !== undefined) return { at: point, to: 'point', with: point };
  const onGrid = (value: number, from: number) => (pitch > 0 ? multiple(value, pitch, from) : value);
  const grid = { x: onGrid(to.x, origin.x), z: onGrid(to.z, origin.z) };
  const level = nearest(points, (p) => Math.abs(p.z - to.z), reach);
  const upright = nearest(points, (p) => Math.abs(p.x - to.x), reach);
  const isLevel =
    level !== undefined && (upright === undefined || Math.abs(level.z - to.z) <= Math.abs(upright.x - to.x));
  if (isLevel) return { at: { x: upright?.x ?? grid.x, z: level.z }, to: 'level', with: level };
  if (upright !== undefined)
    return { at: { x: upright.x, z: level?.z ?? grid.z }, to: 'upright', with: upright };
  return pitch > 0 ? { at: grid, to: 'grid' } : { at: to };
}
