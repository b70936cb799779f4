import type { Vec2 } from '../../../shared/geometry/vec.ts';
import { type Profile, vertexFrom } from './profile.ts';

/** Angle slack with which a corner is looked at from both sides, rad. */
const BESIDE = 1e-6;

/** Piece of ground near a wheel, relative to its hub, m. */
interface Piece {
  readonly px: number;
  readonly pz: number;
  readonly ex: number;
  readonly ez: number;
}

/** Pieces of the ground line that come nearer to the hub than the radius. Level beyond both ends. */
function piecesNear(profile: Profile, hub: Vec2, radius: number): Piece[] {
  const { x, z, count } = profile;
  if (count === 0) return [];
  const pieces: Piece[] = [];
  const first = Math.max(0, vertexFrom(profile, hub.x - radius) - 1);
  const put = (x0: number, z0: number, x1: number, z1: number) => {
    const piece = { px: x0 - hub.x, pz: z0 - hub.z, ex: x1 - x0, ez: z1 - z0 };
    if (nearness(piece) < radius) pieces.push(piece);
  };
  if (hub.x - radius < (x[0] as number))
    put(hub.x - 2 * radius, z[0] as number, x[0] as number, z[0] as number);
  for (let i = first; i + 1 < count && (x[i] as number) <= hub.x + radius; i++)
    put(x[i] as number, z[i] as number, x[i + 1] as number, z[i + 1] as number);
  const end = count - 1;
  if (hub.x + radius > (x[end] as number))
    put(x[end] as number, z[end] as number, hub.x + 2 * radius, z[end] as number);
  return pieces;
}

/** Distance of a piece from the hub, m. */
function nearness({ px, pz, ex, ez }: Piece): number {
  const square = ex * ex + ez * ez;
  const t = square > 0 ? Math.min(1, Math.max(0, -(px * ex + pz * ez) / square)) : 0;
  return Math.hypot(px + t * ex, pz + t * ez);
}

/** Angles at which the outline has corners: ends of pieces inside the rim, and where they cross the rim. */
function corners(pieces: readonly Piece[], radius: number): number[] {
  const angles: number[] = [];
  const put = (x: number, z: number) => {
    const angle = Math.atan2(z, x);
    angles.push(angle - BESIDE, angle + BESIDE);
  };
  for (const { px, pz, ex, ez } of pieces) {
    if (Math.hypot(px, pz) < radius) put(px, pz);
    if (Math.hypot(px + ex, pz + ez) < radius) put(px + ex, pz + ez);
    const a = ex * ex + ez * ez;
    const b = px * ex + pz * ez;
    const root = b * b - a * (px * px + pz * pz - radius * radius);
    if (a === 0 || root <= 0) continue;
    for (const t of [(-b - Math.sqrt(root)) / a, (-b + Math.sqrt(root)) / a])
      if (t >= 0 && t <= 1) put(px + t * ex, pz + t * ez);
  }
  return angles;
}

/** Distance from the hub to the ground along an angle, at most the radius. */
function reach(pieces: readonly Piece[], angle: number, radius: number): number {
  const dx = Math.cos(angle);
  const dz = Math.sin(angle);
  let least = radius;
  for (const { px, pz, ex, ez } of pieces) {
    const across = dx * ez - dz * ex;
    if (across === 0) continue;
    const t = (px * ez - pz * ex) / across;
    const u = (px * dz - pz * dx) / across;
    if (t > 0 && u >= -1e-9 && u <= 1 + 1e-9 && t < least) least = t;
  }
  return least;
}

/**
 * Outline of a tyre that rests on the ground: the rim's circle, cut off where the ground lies inside it, as seen from
 * the hub. True deflection, no exaggeration. Flat [x, z, x, z…] relative to the hub, m, counter-clockwise from angle −π,
 * with `steps` even steps and the exact corners of the contact between them.
 */
export function tyreOutline(profile: Profile, hub: Vec2, radius: number, steps: number): number[] {
  const pieces = piecesNear(profile, hub, radius);
  const angles = Array.from({ length: steps }, (_, i) => -Math.PI + (2 * Math.PI * i) / steps);
  if (pieces.length > 0) angles.push(...corners(pieces, radius));
  if (pieces.length > 0) angles.sort((a, b) => a - b);
  const out: number[] = [];
  for (const angle of angles) {
    const r = pieces.length === 0 ? radius : reach(pieces, angle, radius);
    out.push(r * Math.cos(angle), r * Math.sin(angle));
  }
  return out;
}

/** Lowest point of an outline at a distance x from its hub, m; the nearest end of it when x is beside the outline. */
export function underside(outline: readonly number[], x: number): number {
  let least = Number.POSITIVE_INFINITY;
  const n = outline.length;
  for (let i = 0; i < n; i += 2) {
    const x0 = outline[i] as number;
    const z0 = outline[i + 1] as number;
    const x1 = outline[(i + 2) % n] as number;
    const z1 = outline[(i + 3) % n] as number;
    if (Math.min(x0, x1) > x || Math.max(x0, x1) < x) continue;
    const z = x1 === x0 ? Math.min(z0, z1) : z0 + ((z1 - z0) * (x - x0)) / (x1 - x0);
    if (z < least) least = z;
  }
  return least === Number.POSITIVE_INFINITY ? 0 : least;
}
