import { add, distance, scale, sub, turn, type Vec2 } from '../../shared/geometry/vec.ts';
import { pathText } from '../../shared/path.ts';
import { formatQuantity } from '../../shared/units.ts';
import type { Rod } from '../../sim/mechanism/mechanism.ts';
import { type Carriage, carriedBy, jointOf, type Placed, pointsWith, tiedTo } from './carriage.ts';
import type { Remark } from './edit.ts';
import type { Places } from './places.ts';

/** A rod with its ends as points of the document. */
interface Ends {
  readonly rod: Rod;
  readonly a: Placed;
  readonly b: Placed;
}

/** Rods whose ends stand in the document: rods of their own, and those of axles on rods. */
function rodsOf({ tree, points }: Carriage): readonly Ends[] {
  return tree.rods.flatMap((rod): Ends[] => {
    const own = points.filter(({ member = '' }) => rod.name === member || rod.name.startsWith(`${member} `));
    const at = (place: Vec2) => own.find((p) => p.at.x === place.x && p.at.z === place.z);
    const [a, b] = [at(rod.a.at), at(rod.b.at)];
    return a === undefined || b === undefined || a === b ? [] : [{ rod, a, b }];
  });
}

const placeOf = (places: Places, point: Placed): Vec2 => places.get(pathText(point.path))?.to ?? point.at;

/** The meeting point of two circles (centre, radius, m) that lies nearest to `near`; undefined when they do not meet. */
function meeting(a: Vec2, ra: number, b: Vec2, rb: number, near: Vec2): Vec2 | undefined {
  const apart = distance(a, b);
  if (apart === 0 || apart > ra + rb || apart < Math.abs(ra - rb)) return undefined;
  // Law of cosines: how far along from a to b the common chord lies.
  const along = (apart ** 2 + ra ** 2 - rb ** 2) / (2 * apart);
  const side = Math.sqrt(Math.max(0, ra ** 2 - along ** 2));
  const u = scale(sub(b, a), 1 / apart);
  const foot = add(a, scale(u, along));
  const across = { x: -u.z * side, z: u.x * side };
  const [one, other] = [add(foot, across), sub(foot, across)];
  return distance(one, near) <= distance(other, near) ? one : other;
}

/** Turns what hangs at the free end about its hinge, so that the rod keeps its length; false when it cannot. */
function turned(carriage: Carriage, places: Places, { rod }: Ends, fixed: Placed, free: Placed): boolean {
  const carrier = free.on[0] ?? '';
  const joint = jointOf(carriage.tree, carrier);
  if (joint?.kind !== 'hinge') return false;
  const names = carriedBy(carriage, carrier);
  if (fixed.on.some((name) => names.has(name))) return false;
  const pivot = carriage.points.find(
    ({ member, role }) => member === carrier && (role === 'pivot' || role === 'seat'),
  );
  if (pivot === undefined) return false;
  const hinge = placeOf(places, pivot);
  const goal = meeting(hinge, distance(joint.anchor, free.at), placeOf(places, fixed), rod.length, free.at);
  if (goal === undefined) return false;
  const [before, after] = [sub(free.at, joint.anchor), sub(goal, hinge)];
  const angle = Math.atan2(after.z, after.x) - Math.atan2(before.z, before.x);
  for (const point of pointsWith(carriage, carrier)) {
    const to = add(hinge, turn(sub(point.at, joint.anchor), angle));
    if (point !== pivot) places.set(pathText(point.path), { point, to });
  }
  return true;
}

/** Draws the free end along the rod's line, where it shares its place with nothing; false when it does not. */
function drawnAlong(carriage: Carriage, places: Places, { rod }: Ends, fixed: Placed, free: Placed): boolean {
  if (tiedTo(carriage, free).length > 1) return false;
  const from = placeOf(places, fixed);
  const apart = distance(from, free.at);
  if (apart === 0) return false;
  const to = add(from, scale(sub(free.at, from), rod.length / apart));
  places.set(pathText(free.path), { point: free, to });
  return true;
}

/**
 * Keeps the lengths of rods of which one end moves: what hangs at the other end turns about its hinge, or else the other
 * end itself follows along the rod. Adds to `places`.
 * @returns remarks on the rods whose length could not be kept
 */
export function heldLengths(carriage: Carriage, places: Places): readonly Remark[] {
  const remarks: Remark[] = [];
  for (const ends of rodsOf(carriage)) {
    const moved = [ends.a, ends.b].filter((end) => places.has(pathText(end.path)));
    const now = () => distance(placeOf(places, ends.a), placeOf(places, ends.b));
    if (moved.length === 0 || Math.abs(now() - ends.rod.length) <= carriage.grid) continue;
    const [fixed] = moved;
    const free = fixed === ends.a ? ends.b : ends.a;
    const kept =
      moved.length === 1 &&
      fixed !== undefined &&
      (turned(carriage, places, ends, fixed, free) || drawnAlong(carriage, places, ends, fixed, free));
    if (!kept)
      remarks.push({
        path: pathText(ends.a.entry),
        message: `'${ends.rod.name}' is now ${formatQuantity(now(), 'length', 4)} long instead of ${formatQuantity(ends.rod.length, 'length', 4)}: nothing at its other end can make way`,
        severity: 'warning',
      });
  }
  return remarks;
}
