import { isObject, type Json } from '../documents/json.ts';
import { writePoint } from './figures.ts';
import { freeEnds, moversOf, nearestTo, roomForAxle } from './room.ts';
import { movedBy, pointsOfNew, type Site, wayTo } from './site.ts';

const list = ['vehicle', 'members'] as const;

/** A rod from the chassis to the part that most needs one: a housing that only hangs on a hinge, else any that moves. */
function placeRod(
  { carriage, at, proportions: { radius } }: Site,
  entry: { readonly [key: string]: Json },
): Json {
  const rodded = new Set(carriage.points.filter(({ role }) => role === 'end').flatMap(({ on }) => on));
  const all = moversOf(carriage);
  const bare = all.filter(({ name }) => !rodded.has(name));
  const movers = bare.length > 0 ? bare : all;
  const hinged = movers.filter(({ at: pivot, end }) => pivot === end);
  const held = nearestTo(hinged.length > 0 ? hinged : movers, ({ end }) => end, at);
  const foot = held?.end ?? at ?? { x: 0, z: radius };
  const inward = foot.x > 0 ? -1 : 1;
  const to = { x: foot.x, z: foot.z + 0.5 * radius };
  const from = { x: to.x + 1.2 * inward * radius, z: to.z + 0.2 * radius };
  return {
    ...entry,
    from: writePoint(from, { on: 'chassis', x: '0 mm', z: '0 mm' }, carriage.grid),
    to: writePoint(to, { on: held?.name ?? 'chassis', x: '0 mm', z: '0 mm' }, carriage.grid),
  };
}

/**
 * Puts a new member in its place: at a free end of another member when that is near (or when a hinge looks for one), else
 * on the chassis, where an axle finds room; its lowest point then lies at the height of the hubs.
 */
export function placeMember(site: Site, entry: Json): Json {
  const { document, carriage, proportions, at } = site;
  if (!isObject(entry)) return entry;
  if (entry.from !== undefined && entry.to !== undefined) return placeRod(site, entry);
  const { on: _on, ...rest } = entry;
  const points = pointsOfNew(document, list, rest);
  const [anchor] = points;
  if (anchor === undefined) return rest;
  const wantsEnd = points.length === 1 && Object.hasOwn(rest, 'pivot');
  const end =
    at === undefined && !wantsEnd
      ? undefined
      : nearestTo(
          freeEnds(carriage),
          (point) => point.at,
          at,
          at === undefined ? undefined : 0.5 * proportions.radius,
        );
  const parent = end?.member;
  if (end !== undefined && parent !== undefined) {
    const { kind = '', ...figures } = rest;
    return movedBy({ kind, on: parent, ...figures }, points, wayTo(end.at, anchor.at), carriage.grid);
  }
  if (at !== undefined) return movedBy(rest, points, wayTo(at, anchor.at), carriage.grid);
  const room = roomForAxle(document, proportions);
  const lowest = Math.min(...points.map((point) => point.at.z));
  return movedBy(rest, points, { x: room.x - anchor.at.x, z: room.z - lowest }, carriage.grid);
}
