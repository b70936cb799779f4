import { distance, type Vec2 } from '../../shared/geometry/vec.ts';
import type { Json } from '../documents/json.ts';
import { type Carriage, jointOf, type Placed, tiedTo } from './carriage.ts';
import { readPoint } from './figures.ts';
import { entriesAt } from './lists.ts';
import type { Proportions } from './proportions.ts';

/** How far apart two axles stand at least, in wheel radii: a wheel and some air between. */
export const AXLES_APART = 2.3;

/** Hubs from rear to front, m. */
function hubsOf(document: Json): readonly Vec2[] {
  return entriesAt(document, ['vehicle', 'wheels'])
    .flatMap(({ value }) => readPoint(value.at) ?? [])
    .sort((a, b) => a.x - b.x);
}

/**
 * Where a further axle finds room, m: in the middle of the widest gap between neighbouring wheels when it is wide enough,
 * else behind the rearmost wheel; at the height of the hubs.
 */
export function roomForAxle(document: Json, { radius }: Proportions): Vec2 {
  const hubs = hubsOf(document);
  const [rearmost] = hubs;
  if (rearmost === undefined) return { x: 0, z: radius };
  const z = hubs.reduce((sum, hub) => sum + hub.z, 0) / hubs.length;
  const gaps = hubs.slice(1).map((hub, i) => {
    const from = hubs[i]?.x ?? hub.x;
    return { middle: (from + hub.x) / 2, wide: hub.x - from };
  });
  const widest = gaps.reduce((best, gap) => (gap.wide > best.wide ? gap : best), { middle: 0, wide: 0 });
  const x = widest.wide >= 2 * AXLES_APART * radius ? widest.middle : rearmost.x - AXLES_APART * radius;
  return { x, z };
}

/** Ends and axle centres of members at which neither a wheel nor another member sits yet. */
export function freeEnds(carriage: Carriage): readonly Placed[] {
  return carriage.points.filter((point) => {
    if (point.role !== 'own' && point.role !== 'seat') return false;
    return tiedTo(carriage, point).every(
      (other) =>
        other === point ||
        (other.role !== 'hub' && (other.member === point.member || other.role === 'rider')),
    );
  });
}

/** The thing nearest to a place, within reach (m) when given; the first one without a place. */
export function nearestTo<T>(
  things: readonly T[],
  placeOf: (thing: T) => Vec2,
  at: Vec2 | undefined,
  reach = Number.POSITIVE_INFINITY,
): T | undefined {
  if (at === undefined) return things[0];
  const near = things.filter((thing) => distance(placeOf(thing), at) <= reach);
  return near.reduce<T | undefined>(
    (best, thing) =>
      best === undefined || distance(placeOf(thing), at) < distance(placeOf(best), at) ? thing : best,
    undefined,
  );
}

/** A member that moves against its parent. */
export interface Mover {
  readonly name: string;
  readonly parent: string;
  /** Whether it turns; else it moves along a line. */
  readonly turns: boolean;
  /** Its pivot or axle centre, m. */
  readonly at: Vec2;
  /** The end that a spring would stand on, m. */
  readonly end: Vec2;
  /** Whether its own travel can be named: a turn, a guide, the lift of an axle on rods. */
  readonly hasTravel: boolean;
}

/** The members that move, in the order of the document. */
export function moversOf(carriage: Carriage): readonly Mover[] {
  return carriage.tree.members.flatMap((member): Mover[] => {
    const { name } = member;
    const joint = jointOf(carriage.tree, name);
    const own = carriage.points.filter((point) => point.member === name && point.role !== 'mount');
    const at = own.find(({ role }) => role === 'pivot' || role === 'seat')?.at;
    if (joint === undefined || at === undefined) return [];
    const end = own.find(({ role }) => role === 'own')?.at ?? at;
    const parent = carriage.parents.get(name) ?? 'chassis';
    const turns = joint.kind === 'hinge';
    return [{ name, parent, turns, at, end: turns ? end : at, hasTravel: member.coordinate !== undefined }];
  });
}
