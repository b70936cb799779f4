import type { Vec2 } from '../../shared/geometry/vec.ts';
import { distance } from '../../shared/geometry/vec.ts';
import type { Path } from '../../shared/path.ts';
import type { Scenario } from '../scenario/schema.ts';

/** A point of the drawing that can be moved: a pin about which something turns, or the pin of a rod. */
export interface Pivot {
  /** Members that share it: 'middle-arm and rear-arm'; 'middle-rod at chassis' for the end of a rod. */
  readonly name: string;
  readonly kind: 'pivot' | 'rod end';
  /** What it is fixed to: a member, or 'chassis'. */
  readonly on: string;
  readonly members: readonly string[];
  /** Where it is drawn, m. */
  readonly at: Vec2;
  /** Points of the document that move with it: each has its x and z below. */
  readonly points: readonly Path[];
  /** The same with everything that hangs on it: ends, hubs, masses, and the pins of what hangs on that. */
  readonly carried: readonly Path[];
}

type Vehicle = Scenario['vehicle'];
type Member = Vehicle['members'][number];

/** A point of the document with the body that carries it, a member's name or 'chassis'. */
interface Placed {
  readonly path: Path;
  readonly on: string;
  readonly at: Vec2;
}

/** Points nearer to each other than this share of the smallest wheel radius are one pin. */
const onePin = 1e-3;

/**
 * The pins of a vehicle that can be moved. Arms that turn about one point of the same parent share a pin, and the end of
 * what carries a pin moves with it, where it is drawn in the same place.
 */
export function pivotsOf(scenario: Scenario): readonly Pivot[] {
  const { vehicle } = scenario;
  const near = onePin * Math.min(...vehicle.wheels.map((w) => w.radius));
  const pins = vehicle.members.flatMap((member, i) => pinOf(member, i));
  const left = [...pins];
  const found: Pivot[] = [];
  for (let first = left.shift(); first !== undefined; first = left.shift()) {
    const { on, at } = first;
    const shares = (p: { on: string; at: Vec2 }) => p.on === on && distance(p.at, at) <= near;
    const group = [first, ...left.filter(shares)];
    for (const pin of group.slice(1)) left.splice(left.indexOf(pin), 1);
    const ends = pointsOf(vehicle).filter((p) => p.end && shares(p));
    const members = group.map((pin) => pin.member);
    const points = [...group, ...ends].map((p) => p.path);
    found.push({
      name: listed(members),
      kind: 'pivot',
      on,
      members,
      at,
      points,
      carried: [...points, ...carriedBy(vehicle, members, points)],
    });
  }
  return [...found, ...rodEndsOf(vehicle)];
}

/** The pivot of this name, or that of the member of this name. */
export function pivotNamed(scenario: Scenario, name: string): Pivot | undefined {
  const pivots = pivotsOf(scenario);
  return (
    pivots.find((p) => p.name === name) ?? pivots.find((p) => p.kind === 'pivot' && p.members.includes(name))
  );
}

/** The pin on which a member turns, where it is one of those that do. */
function pinOf(member: Member, index: number): (Placed & { readonly member: string })[] {
  if (member.kind !== 'arm' && member.kind !== 'bogie-beam' && member.kind !== 'housing') return [];
  const path = ['vehicle', 'members', index, 'pivot'];
  return [{ path, on: member.on, at: member.pivot, member: member.name }];
}

/** Every point of members that lies on a body of its own or another's; `end` for those that mark the end of a body. */
function pointsOf({ members }: Vehicle): (Placed & { readonly end: boolean })[] {
  return members.flatMap((member, i) => {
    const own = (field: string, at: Vec2) => ({
      path: ['vehicle', 'members', i, field],
      on: member.name,
      at,
      end: true,
    });
    if (member.kind === 'arm') return [own('end', member.end)];
    if (member.kind === 'bogie-beam') return [own('front', member.front), own('rear', member.rear)];
    return [];
  });
}

/** Ends of rods, of their own or of an axle on two rods. */
function rodEndsOf({ members }: Vehicle): Pivot[] {
  return members.flatMap((member, i) => {
    const path = ['vehicle', 'members', i];
    if (member.kind === 'rod')
      return (['from', 'to'] as const).map((end) =>
        rodEnd(member.name, member.name, member[end].on, member[end], [...path, end]),
      );
    if (member.kind !== 'link-axle') return [];
    return (['lower', 'upper'] as const).flatMap((which) => {
      const rod = `${member.name} ${which} rod`;
      return [
        rodEnd(rod, member.name, member.on, member[which].parent, [...path, which, 'parent']),
        rodEnd(rod, member.name, member.name, member[which].axle, [...path, which, 'axle']),
      ];
    });
  });
}

function rodEnd(rod: string, member: string, on: string, { x, z }: Vec2, path: Path): Pivot {
  return {
    name: `${rod} at ${on}`,
    kind: 'rod end',
    on,
    members: [member],
    at: { x, z },
    points: [path],
    carried: [path],
  };
}

/** Every point on these members and on what hangs on them, besides those named already. */
function carriedBy(vehicle: Vehicle, names: readonly string[], named: readonly Path[]): Path[] {
  const bodies = new Set(names);
  for (let grown = true; grown; ) {
    grown = false;
    for (const member of vehicle.members) {
      if (!('on' in member) || bodies.has(member.name) || !bodies.has(member.on)) continue;
      bodies.add(member.name);
      grown = true;
    }
  }
  const seen = new Set(named.map((p) => p.join('/')));
  return placesOf(vehicle)
    .filter(({ on, path }) => bodies.has(on) && !seen.has(path.join('/')))
    .map(({ path }) => path);
}

/** All points of the vehicle with the body on which they lie: of members with their pins, elements, wheels and masses. */
function placesOf(vehicle: Vehicle): Placed[] {
  const members = vehicle.members.flatMap((member, i) =>
    Object.entries(member).flatMap(([field, value]) => {
      const path = ['vehicle', 'members', i, field];
      const on = isPoint(value) && 'on' in value ? String(value.on) : member.name;
      if (isPoint(value)) return [{ path, on, at: value }];
      return pointFields(value).map(([inner, at]) => ({ path: [...path, inner], on: member.name, at }));
    }),
  );
  const spans = vehicle.elements.flatMap(({ on }, i) =>
    'member' in on
      ? []
      : (['from', 'to'] as const).map((end) => ({
          path: ['vehicle', 'elements', i, 'on', end],
          on: on[end].on,
          at: on[end],
        })),
  );
  const wheels = vehicle.wheels.map(({ on, at }, i) => ({ path: ['vehicle', 'wheels', i, 'at'], on, at }));
  const masses = vehicle.masses.map(({ on, at }, i) => ({ path: ['vehicle', 'masses', i, 'at'], on, at }));
  return [...members, ...spans, ...wheels, ...masses];
}

function isPoint(value: unknown): value is Vec2 {
  return typeof value === 'object' && value !== null && 'x' in value && 'z' in value;
}

/** Points in the fields of an object: the two ends of a rod of an axle. */
function pointFields(value: unknown): [string, Vec2][] {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return [];
  return Object.entries(value).filter((entry): entry is [string, Vec2] => isPoint(entry[1]));
}

function listed(names: readonly string[]): string {
  return names.length < 2 ? (names[0] ?? '') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
}
