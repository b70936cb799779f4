import type { Ground } from '../ground/ground.ts';
import { firstSegment, lastSegment } from '../ground/query.ts';

/** Most separate contacts that one wheel keeps track of; further ones are merged into the last. */
export const maxPatches = 8;

/**
 * What a rim meets: a list of patches, each a stretch of rim that is pressed in without a break. Reused from call to
 * call. Forces and energy are per unit of foundation stiffness: multiply by k, N/(m·rad).
 */
export interface Touch {
  /** Number of patches; rows beyond it are stale. */
  count: number;
  /** Force on the hub over k, m·rad. */
  readonly fx: Float64Array;
  readonly fz: Float64Array;
  /** Sum of the sizes of the segments' forces over k, m·rad. */
  readonly press: Float64Array;
  /**
   * Sum of the segments' forces times their distances p from the hub, over k, m²·rad. Friction along every segment in
   * proportion to its force turns the wheel by this; over the size of the summed force it is the patch's lever: p on one
   * segment, the distance of the edge on an edge.
   */
  readonly moment: Float64Array;
  /** Greatest depth in the patch, m. */
  readonly depth: Float64Array;
  /** Stored energy of all patches over k, m²·rad. */
  energy: number;
  /**
   * Tangent of the total force over k by the hub's place: ∂fx/∂x, ∂fx/∂z, ∂fz/∂x, ∂fz/∂z, rad; then ∂/∂x and ∂/∂z of the
   * total `moment`, m·rad. For Newton's method.
   */
  readonly tangent: Float64Array;
  /** First ground segment looked at last time: where the next search begins. */
  near: number;
  /** Highest vertex of every eight segments of the ground that was met last, m. */
  skyline: { readonly of: Ground; readonly peaks: Float64Array } | undefined;
}

/** Room for the contacts of one wheel. */
export function makeTouch(): Touch {
  const row = () => new Float64Array(maxPatches);
  return {
    count: 0,
    fx: row(),
    fz: row(),
    press: row(),
    moment: row(),
    depth: row(),
    energy: 0,
    tangent: new Float64Array(6),
    near: 0,
    skyline: undefined,
  };
}

/** Ground that turns upwards by more than 30° from one segment to the next parts two patches. */
const partingSine = 0.5;

/**
 * Finds all contacts of a rim of this radius (m) with its hub at (x, z) m, and writes them to `touch`. The energy costs
 * an arc tangent per segment and is 0 when it is not asked for.
 *
 * Every rim angle is a radial spring: U = ½·k·∫δ² dφ, δ = r − ρ(φ), ρ the length of the ray to the ground. On a segment
 * at perpendicular distance p, with u along it from the foot of the perpendicular, ρ = √(u² + p²), dφ = p·du/ρ², so
 *   −∂U/∂p = k·[r·asinh(u/p) − u]                             along the normal, between the ends of the contact;
 *   U = ½·k·[r²·atan(u/p) − 2·r·p·asinh(u/p) + p·u].
 * An end inside the rim moves with the hub: visible neighbours cancel there; at a silhouette (the neighbour is seen
 * from behind) the boundary term ±½·k·δ²·∇φ remains, and makes the force the gradient of U. Ground that is hidden
 * behind other ground is not told apart. Source: derivation in sim/PHYSICS.md.
 */
export function findTouch(
  touch: Touch,
  ground: Ground,
  x: number,
  z: number,
  radius: number,
  withEnergy = true,
): void {
  touch.count = 0;
  touch.energy = 0;
  touch.tangent.fill(0);
  const floor = z - radius;
  const rise = 0.5 / radius;
  const end = x + radius;
  const last = ground.count - 1;
  if (touch.skyline?.of !== ground) touch.skyline = { of: ground, peaks: peaksOf(ground) };
  const { peaks } = touch.skyline;
  let i = firstNear(ground, x - radius, touch.near);
  touch.near = i;
  let bx = ground.x[i] as number;
  let bz = ground.z[i] as number;
  let joins = false;
  let tx0 = 0;
  let tz0 = 0;
  for (; i < last; i++) {
    if ((i & (run - 1)) === 0) {
      // the rim is nowhere lower than a parabola: whole runs of ground are skipped under that
      const next = Math.min(i + run, last);
      const far = ground.x[next] as number;
      const off = far < x ? x - far : bx > x ? bx - x : 0;
      if ((peaks[i >> runBits] as number) <= floor + off * off * rise) {
        i = next - 1;
        bx = far;
        bz = ground.z[next] as number;
        joins = false;
        if (bx > end) break;
        continue;
      }
    }
    const ax = bx;
    const az = bz;
    if (ax > end) break;
    bx = ground.x[i + 1] as number;
    bz = ground.z[i + 1] as number;
    const before = joins;
    joins = false;
    // and single segments likewise
    const off = bx < x ? x - bx : ax > x ? ax - x : 0;
    if (Math.max(az, bz) <= floor + off * off * rise) continue;
    const dx = bx - ax;
    const dz = bz - az;
    // twice the area of hub and segment, against radius times length: the others that miss need no root
    const area = (z - az) * dx - (x - ax) * dz;
    const square = dx * dx + dz * dz;
    if (!(area > 0 && area * area < radius * radius * square)) continue;
    const length = Math.sqrt(square);
    const shrink = 1 / length;
    const tx = dx * shrink;
    const tz = dz * shrink;
    const p = area * shrink;
    const half = Math.sqrt(radius * radius - p * p);
    const foot = (x - ax) * tx + (z - az) * tz;
    const ua = Math.max(-foot, -half);
    const ub = Math.min(length - foot, half);
    if (ub <= ua) continue;
    const goesOn = before && tx0 * tz - tz0 * tx <= partingSine;
    const row = goesOn ? touch.count - 1 : newPatch(touch);
    pressSegment(touch, row, p, ua, ub, tx, tz, radius, withEnergy);
    // a neighbour that was pressed up to this end is in sight
    if (ua > -half && !before && seenFromBehind(ground, i - 1, x, z))
      pressSilhouette(touch, row, ax - x, az - z, radius, 1);
    if (ub < half && seenFromBehind(ground, i + 1, x, z))
      pressSilhouette(touch, row, bx - x, bz - z, radius, -1);
    joins = ub < half;
    tx0 = tx;
    tz0 = tz;
  }
}

/** Segments in a run of ground whose highest vertex is kept: a power of two. */
const runBits = 3;
const run = 1 << runBits;

/** Highest vertex of each run, its ends included, m. */
function peaksOf({ z, count }: Ground): Float64Array {
  const peaks = new Float64Array(Math.ceil(count / run));
  for (let b = 0; b < peaks.length; b++) {
    let top = Number.NEGATIVE_INFINITY;
    for (let i = b * run; i <= (b + 1) * run && i < count; i++) top = Math.max(top, z[i] as number);
    peaks[b] = top;
  }
  return peaks;
}

/** Longest walk from the last place to the present one; further away the place is looked up. */
const walk = 24;

/** As `firstSegment`, looked for from segment `near` on: a wheel is mostly where it was. */
function firstNear(ground: Ground, station: number, near: number): number {
  const { x, count } = ground;
  let i = near;
  if (i > count - 2) return firstSegment(ground, station);
  const ahead = (x[i] as number) < station;
  for (let n = 0; n < walk; n++) {
    if (ahead) {
      if (i === count - 2 || (x[i + 1] as number) >= station) return i;
      i++;
    } else {
      if (i === 0 || (x[i] as number) < station) return i;
      i--;
    }
  }
  return firstSegment(ground, station);
}

/** Opens a patch and returns its row; when all rows are taken, the last one goes on. */
function newPatch(touch: Touch): number {
  if (touch.count === maxPatches) return maxPatches - 1;
  const row = touch.count++;
  touch.fx[row] = 0;
  touch.fz[row] = 0;
  touch.press[row] = 0;
  touch.moment[row] = 0;
  touch.depth[row] = 0;
  return row;
}

/** Adds the part of a segment between ua and ub (m from the foot of the perpendicular p). */
function pressSegment(
  touch: Touch,
  row: number,
  p: number,
  ua: number,
  ub: number,
  tx: number,
  tz: number,
  radius: number,
  withEnergy: boolean,
): void {
  const ra = Math.sqrt(ua * ua + p * p);
  const rb = Math.sqrt(ub * ub + p * p);
  // asinh(ub/p) − asinh(ua/p), written without loss of digits on either side of the foot
  const stretch =
    ua >= 0
      ? Math.log((ub + rb) / (ua + ra))
      : ub <= 0
        ? Math.log((ra - ua) / (rb - ub))
        : Math.log(((ub + rb) * (ra - ua)) / (p * p));
  const along = ub - ua;
  const normal = radius * stretch - along;
  if (withEnergy) {
    const arc = Math.atan2(along * p, p * p + ua * ub);
    touch.energy += 0.5 * (radius * radius * arc - 2 * radius * p * stretch + p * along);
  }
  touch.fx[row] = (touch.fx[row] as number) - tz * normal;
  touch.fz[row] = (touch.fz[row] as number) + tx * normal;
  touch.press[row] = (touch.press[row] as number) + normal;
  touch.moment[row] = (touch.moment[row] as number) + p * normal;
  const nearest = ua <= 0 && ub >= 0 ? p : Math.min(ra, rb);
  touch.depth[row] = Math.max(touch.depth[row] as number, radius - nearest);
  // with the hub moving along the normal p grows; along the segment both ends move against it, which counts at an end
  // that is cut (δ > 0 there) and vanishes at one that the rim itself ends
  const overA = 1 / ra;
  const overB = 1 / rb;
  const byNormal = (-radius * (ub * overB - ua * overA)) / p;
  const byAlong = radius * (overA - overB);
  const kx = -tz * byNormal + tx * byAlong;
  const kz = tx * byNormal + tz * byAlong;
  const { tangent } = touch;
  tangent[0] = (tangent[0] as number) - tz * kx;
  tangent[1] = (tangent[1] as number) - tz * kz;
  tangent[2] = (tangent[2] as number) + tx * kx;
  tangent[3] = (tangent[3] as number) + tx * kz;
  tangent[4] = (tangent[4] as number) + p * kx - tz * normal;
  tangent[5] = (tangent[5] as number) + p * kz + tx * normal;
}

/** Whether the hub lies behind (under) segment i, so that it cannot press it. */
function seenFromBehind(ground: Ground, i: number, x: number, z: number): boolean {
  if (i < 0 || i + 1 >= ground.count) return false;
  const ax = ground.x[i] as number;
  const az = ground.z[i] as number;
  return (z - az) * ((ground.x[i + 1] as number) - ax) - (x - ax) * ((ground.z[i + 1] as number) - az) <= 0;
}

/** Boundary term at a silhouette vertex (dx, dz) from the hub: side +1 where the contact begins, −1 where it ends. */
function pressSilhouette(
  touch: Touch,
  row: number,
  dx: number,
  dz: number,
  radius: number,
  side: 1 | -1,
): void {
  const square = dx * dx + dz * dz;
  const reach = Math.sqrt(square);
  const depth = radius - reach;
  if (depth <= 0) return;
  const size = (side * 0.5 * depth * depth) / square;
  touch.fx[row] = (touch.fx[row] as number) + size * dz;
  touch.fz[row] = (touch.fz[row] as number) - size * dx;
  // across the ray: friction that goes with it would point at the hub and turn nothing
  touch.press[row] = (touch.press[row] as number) + (0.5 * depth * depth) / reach;
  // F = f·(dz, −dx) with f = ±½·δ²/ρ², and the hub's motion is against (dx, dz)
  const slope = (-side * depth * (1 / square + depth / (square * reach))) / reach;
  const { tangent } = touch;
  tangent[0] = (tangent[0] as number) - slope * dx * dz;
  tangent[1] = (tangent[1] as number) - slope * dz * dz - size;
  tangent[2] = (tangent[2] as number) + slope * dx * dx + size;
  tangent[3] = (tangent[3] as number) + slope * dx * dz;
}

/** Distance from a point (x, z) m to the ground line, m, among the segments within `reach` m of x; `reach` if none is nearer. */
export function distanceToGround(ground: Ground, x: number, z: number, reach: number): number {
  let least = reach;
  const last = lastSegment(ground, x + reach);
  for (let i = firstSegment(ground, x - reach); i <= last; i++) {
    const ax = ground.x[i] as number;
    const az = ground.z[i] as number;
    const dx = (ground.x[i + 1] as number) - ax;
    const dz = (ground.z[i + 1] as number) - az;
    const share = Math.max(0, Math.min(1, ((x - ax) * dx + (z - az) * dz) / (dx * dx + dz * dz)));
    least = Math.min(least, Math.hypot(x - ax - share * dx, z - az - share * dz));
  }
  return least;
}
