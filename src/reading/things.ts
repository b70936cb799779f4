import { type Pose, place, type Vec2 } from '../../shared/geometry/vec.ts';
import { carryingJoints, memberLines } from '../../sim/joints/line.ts';
import type { BodyPoint, Mechanism } from '../../sim/mechanism/mechanism.ts';
import { type Seat, seatsOf } from '../canvas/sites.ts';

/** What a thing of the picture is; `index` in the mechanism, of a pin or guide in the recording's joints. */
export interface Thing {
  readonly kind: 'wheel' | 'member' | 'rod' | 'element' | 'pin';
  readonly index: number;
  readonly name: string;
  /** What it is, for people: 'wheels', 'rod', 'torsion bar', 'pin'. */
  readonly sort: string;
  readonly shape: Shape;
}

/** Where it lies in the drawing; radii in m. */
type Shape =
  | { readonly kind: 'disc'; readonly at: BodyPoint; readonly radius: number }
  | { readonly kind: 'line'; readonly ends: readonly (readonly [BodyPoint, BodyPoint])[] }
  | { readonly kind: 'dot'; readonly at: BodyPoint };

/** Radius of the ring round a pivot that belongs to the bar or damper there, wheel radii. */
const RING = 0.35;

function elementShape(seat: Seat): Shape | undefined {
  if (seat.ends !== undefined) return { kind: 'line', ends: [[seat.ends.a, seat.ends.b]] };
  if (seat.turn === undefined) return undefined;
  const { joint } = seat.turn;
  return { kind: 'disc', at: { body: joint.parent, at: joint.anchor }, radius: RING * seat.radius };
}

const words = (kind: string): string => kind.replaceAll('-', ' ');

/**
 * Everything on the picture that has figures, from the front: wheels, arms and beams, rods, springs and bars, pins. A stop
 * belongs to its member and is none of its own.
 */
export function thingsOf(mechanism: Mechanism): readonly Thing[] {
  const { wheels, members, rods, joints } = mechanism;
  const wheelThings = wheels
    .map(
      ({ name, body, hub, radius }, index): Thing => ({
        kind: 'wheel',
        index,
        name,
        sort: 'wheels',
        shape: { kind: 'disc', at: { body, at: hub }, radius },
      }),
    )
    .sort((a, b) => (wheels[a.index]?.axle ?? 0) - (wheels[b.index]?.axle ?? 0));
  const lined = new Set(memberLines(mechanism).map(({ name }) => name));
  const memberThings = members.flatMap(({ name, kind, lines, coordinate }, index): Thing[] => {
    if (kind === 'rod' || lines.length === 0 || (coordinate === undefined && !lined.has(name))) return [];
    const ends = lines.map(({ from, to }) => [from, to] as const);
    return [{ kind: 'member', index, name, sort: words(kind), shape: { kind: 'line', ends } }];
  });
  const rodThings = rods.map(
    ({ name, a, b }, index): Thing => ({
      kind: 'rod',
      index,
      name,
      sort: 'rod',
      shape: { kind: 'line', ends: [[a, b]] },
    }),
  );
  const elementThings = seatsOf(mechanism).flatMap((seat): Thing[] => {
    const shape = elementShape(seat);
    if (shape === undefined || seat.element.stopOf !== undefined) return [];
    const index = mechanism.elements.indexOf(seat.element);
    return [{ kind: 'element', index, name: seat.element.name, sort: words(seat.element.kind), shape }];
  });
  const pinThings = carryingJoints(mechanism).map(({ joint }, index): Thing => {
    const sort = joint.kind === 'slide' ? 'guide' : 'pin';
    const at = { body: joint.parent, at: joint.anchor };
    return { kind: 'pin', index, name: joint.name, sort, shape: { kind: 'dot', at } };
  });
  return joints.length === 0 && wheelThings.length === 0
    ? []
    : [...wheelThings, ...memberThings, ...rodThings, ...elementThings, ...pinThings];
}

const worldOf = ({ body, at }: BodyPoint, poses: readonly Pose[]): Vec2 | undefined => {
  const pose = poses[body];
  return pose === undefined ? undefined : place(pose, at);
};

/** Distance of a point from a segment, m. */
function fromLine(p: Vec2, a: Vec2, b: Vec2): number {
  const [dx, dz] = [b.x - a.x, b.z - a.z];
  const squared = dx * dx + dz * dz;
  const t = squared > 0 ? Math.min(1, Math.max(0, ((p.x - a.x) * dx + (p.z - a.z) * dz) / squared)) : 0;
  return Math.hypot(p.x - a.x - t * dx, p.z - a.z - t * dz);
}

/** Distance of a point of the world from a thing, m; 0 within a disc. Infinite where it isn't in sight. */
export function distanceTo({ shape }: Thing, poses: readonly Pose[], p: Vec2): number {
  if (shape.kind === 'line')
    return Math.min(
      ...shape.ends.map(([from, to]) => {
        const [a, b] = [worldOf(from, poses), worldOf(to, poses)];
        return a === undefined || b === undefined ? Number.POSITIVE_INFINITY : fromLine(p, a, b);
      }),
      Number.POSITIVE_INFINITY,
    );
  const at = worldOf(shape.at, poses);
  if (at === undefined) return Number.POSITIVE_INFINITY;
  const d = Math.hypot(p.x - at.x, p.z - at.z);
  return shape.kind === 'disc' ? Math.max(0, d - shape.radius) : d;
}

/** Small things come before what they lie on. */
const order: Readonly<Record<Thing['kind'], number>> = { pin: 0, rod: 1, element: 2, member: 3, wheel: 4 };

/** Reach of small things at most, as a share of the smallest wheel: a finger on a small picture means the wheel. */
const SMALL = 1 / 3;

/**
 * Things within `reach` m of a point of the world: the small before the large, the near before the far. Where there is
 * none under the point itself, wheels too are reached for.
 */
export function thingsAt(
  things: readonly Thing[],
  poses: readonly Pose[],
  p: Vec2,
  reach: number,
): readonly Thing[] {
  const radii = things.flatMap(({ kind, shape }) =>
    kind === 'wheel' && shape.kind === 'disc' ? [shape.radius] : [],
  );
  const small = Math.min(reach, SMALL * Math.min(...radii));
  const all = things.map((thing) => ({ thing, d: distanceTo(thing, poses, p) }));
  const near = all.filter(({ d, thing }) => d <= (thing.kind === 'wheel' ? 0 : small));
  const found = near.length > 0 ? near : all.filter(({ d }) => d <= reach);
  const far = near.length === 0;
  return found
    .sort((a, b) => (far ? 0 : order[a.thing.kind] - order[b.thing.kind]) || a.d - b.d)
    .map(({ thing }) => thing);
}

/** The box of a thing in the world, m; undefined where it isn't in sight. */
export function boxOf({ shape }: Thing, poses: readonly Pose[]) {
  const points = shape.kind === 'line' ? shape.ends.flat() : [shape.at];
  const places = points.flatMap((point) => worldOf(point, poses) ?? []);
  if (places.length === 0) return undefined;
  const room = shape.kind === 'disc' ? shape.radius : 0;
  const xs = places.map(({ x }) => x);
  const zs = places.map(({ z }) => z);
  return {
    xMin: Math.min(...xs) - room,
    xMax: Math.max(...xs) + room,
    zMin: Math.min(...zs) - room,
    zMax: Math.max(...zs) + room,
  };
}
