import type { z } from 'zod';
import { distance, type Vec2 } from '../../shared/geometry/vec.ts';
import { pathText } from '../../shared/path.ts';
import { keysAt, schemaAt } from '../../shared/schema/describe.ts';
import { growTree, type MemberEntry, type Tree } from '../../sim/mechanism/build.ts';
import type { Joint, Member } from '../../sim/mechanism/mechanism.ts';
import { scenarioDocument } from '../../sim/scenario/schema.ts';
import { type Json, valueAt } from '../documents/json.ts';
import { readFigure } from './figures.ts';
import { entriesAt, listOf, nameAt } from './lists.ts';
import { type DocumentPoint, pointsOf } from './points.ts';

/**
 * What a point is to the parts that meet there:
 * - `seat`: the place of a whole member (an axle centre, the hinge of a housing): the member goes where it goes;
 * - `pivot`: where a member turns against its parent, on both of them;
 * - `mount`: a point of a member's entry that lies on its parent (the frame end of a rod);
 * - `own`: any other point of a member; `hub`: of a wheel; `end`: of a rod between two members;
 * - `rider`: a mass item, an end of an element, a pull; `line`: of a drawn line; `mark`: belongs to nothing.
 */
export type Role = 'seat' | 'pivot' | 'mount' | 'own' | 'hub' | 'end' | 'rider' | 'line' | 'mark';

/** A point with what it is and what carries it. */
export interface Placed extends DocumentPoint {
  readonly role: Role;
  /** Names of the members that it is fixed to, 'chassis' included; two for a pivot. */
  readonly on: readonly string[];
  /** Name of the member whose entry it belongs to. */
  readonly member?: string;
}

/** A document's vehicle as parts that carry each other. */
export interface Carriage {
  readonly points: readonly Placed[];
  /** Parent by member name; rods, which hang on two, have none. */
  readonly parents: ReadonlyMap<string, string>;
  readonly tree: Tree;
  /** Size of the vehicle in the drawing, m: the longer side of the box around its parts. */
  readonly size: number;
  /** Step below which digits of a length mean nothing, m. */
  readonly grid: number;
  /** Points nearer than this are one place, m. */
  readonly tolerance: number;
}

/** Entries of members that the schema takes, read into SI. */
function readMembers(document: Json): readonly MemberEntry[] {
  return entriesAt(document, ['vehicle', 'members']).flatMap(({ path, value }): MemberEntry[] => {
    const schema = schemaAt(scenarioDocument, document, path) as z.ZodType<MemberEntry> | undefined;
    const read = schema?.safeParse(value);
    return read?.success === true ? [read.data] : [];
  });
}

/** Parent of each member by name: what its `on` says, or the chassis where its kind has an `on` that is left out. */
function parentsOf(document: Json): ReadonlyMap<string, string> {
  return new Map(
    entriesAt(document, ['vehicle', 'members']).flatMap(({ path, value }): [string, string][] => {
      const { name, on } = value;
      if (typeof name !== 'string') return [];
      if (typeof on === 'string') return [[name, on]];
      return keysAt(scenarioDocument, document, path).includes('on') ? [[name, 'chassis']] : [];
    }),
  );
}

const same = (a: Vec2, b: Vec2): boolean => a.x === b.x && a.z === b.z;

/** The joint of a member's own body; undefined for members without a body of their own. */
export function jointOf(tree: Tree, name: string): Joint | undefined {
  const member = tree.members.find((m) => m.name === name);
  if (member === undefined || member.body < 0) return undefined;
  if (tree.bodies[member.body]?.name !== name) return undefined;
  return tree.joints.find((joint) => joint.child === member.body);
}

function lifts(member: Member, at: Vec2): boolean {
  return member.coordinate?.kind === 'lift' && same(member.coordinate.at, at);
}

/** What a point of a member's entry is, told by the bodies and joints that the member becomes. */
function roleInMember(tree: Tree, name: string, at: Vec2, only: boolean): Role {
  if (only) return 'seat';
  const member = tree.members.find((m) => m.name === name);
  if (member === undefined) return 'own';
  const joint = jointOf(tree, name);
  if (lifts(member, at) || (joint?.kind === 'slide' && same(joint.anchor, at))) return 'seat';
  if (joint?.kind === 'hinge' && same(joint.anchor, at)) return 'pivot';
  const pin = member.pins.find((p) => same(p.at, at));
  return pin !== undefined && pin.body !== member.body ? 'mount' : 'own';
}

/** Text of the nearest `on` from a point up to its entry. */
function carrierOf(document: Json, { path, entry }: DocumentPoint): string | undefined {
  for (let n = path.length; n >= entry.length; n--) {
    const on = valueAt(document, [...path.slice(0, n), 'on']);
    if (typeof on === 'string') return on;
  }
  return undefined;
}

function placed(document: Json, point: DocumentPoint, only: boolean, tree: Tree, parent: string): Placed {
  const list = listOf(point.entry);
  const name = nameAt(document, point.entry);
  const own = valueAt(document, [...point.path, 'on']);
  if (list?.noun !== 'member' || name === undefined) {
    const role = list === undefined ? 'mark' : list.tie === 'structure' ? 'hub' : list.tie;
    return { ...point, role, on: [carrierOf(document, point) ?? 'chassis'] };
  }
  if (typeof own === 'string') return { ...point, role: 'end', on: [own], member: name };
  const role = roleInMember(tree, name, point.at, only);
  const rigid = role === 'seat' && jointOf(tree, name) === undefined;
  const on = role === 'mount' ? [parent] : role === 'pivot' || role === 'seat' ? [name, parent] : [name];
  return { ...point, role, on: rigid ? [name, parent] : on, member: name };
}

/** The longer side of the box around structure and wheels, m. */
function sizeOf(document: Json, points: readonly Placed[]): number {
  const radii = entriesAt(document, ['vehicle', 'wheels']).map(
    ({ value }) => readFigure(value.radius, 'length') ?? 0,
  );
  const span = (values: readonly number[]) =>
    values.length === 0 ? 0 : Math.max(...values) - Math.min(...values);
  const parts = points.filter(({ role }) => role !== 'line' && role !== 'mark').map(({ at }) => at);
  const radius = Math.max(0, ...radii);
  const size = Math.max(span(parts.map(({ x }) => x)), span(parts.map(({ z }) => z))) + 2 * radius;
  return size > 0 && Number.isFinite(size) ? size : 0.5;
}

/**
 * Step below which digits of a length mean nothing: a ten-thousandth of the leading power of ten of the size, 0.01 mm on
 * a model of 0.1 to 1 m, 0.1 mm on a truck of 1 to 10 m. Common practice, no source.
 */
const gridOf = (size: number): number => 10 ** (Math.floor(Math.log10(size)) - 4);

/** Points of different parts nearer than a thousandth of the vehicle are meant as one pin: 0.5 mm on a model of 0.5 m. */
const TIED = 1e-3;

/** Reads a document's vehicle as parts that carry each other; entries that cannot be read are left out. */
export function carriageOf(document: Json): Carriage {
  const tree = growTree(readMembers(document));
  const parents = parentsOf(document);
  const found = pointsOf(document);
  const inEntry = new Map<string, number>();
  for (const { entry } of found) inEntry.set(pathText(entry), (inEntry.get(pathText(entry)) ?? 0) + 1);
  const points = found.map((point) => {
    const parent = parents.get(nameAt(document, point.entry) ?? '') ?? 'chassis';
    return placed(document, point, inEntry.get(pathText(point.entry)) === 1, tree, parent);
  });
  const size = sizeOf(document, points);
  return { points, parents, tree, size, grid: gridOf(size), tolerance: TIED * size };
}

/** Names of a member and of all members that hang on it, directly or through others. */
export function carriedBy({ parents }: Pick<Carriage, 'parents'>, name: string): ReadonlySet<string> {
  const names = new Set([name]);
  for (let grown = 0; grown < names.size; ) {
    grown = names.size;
    for (const [member, parent] of parents) if (names.has(parent)) names.add(member);
  }
  return names;
}

/** Points tied to a place: at the same place on the same parts, directly or through others; the point itself first. */
export function tiedTo({ points, tolerance }: Carriage, point: Placed): readonly Placed[] {
  const near = points.filter(
    (other) => other.role !== 'line' && other.role !== 'mark' && distance(other.at, point.at) <= tolerance,
  );
  const tied: Placed[] = [point];
  for (let i = 0; i < tied.length; i++) {
    const parts = tied[i]?.on ?? [];
    for (const other of near) {
      const known = tied.some(({ path }) => pathText(path) === pathText(other.path));
      if (!known && other.on.some((name) => parts.includes(name))) tied.push(other);
    }
  }
  return tied;
}

/** Points that go where a member goes: its own, and all that it carries; not those of its entry that lie on its parent. */
export function pointsWith(carriage: Carriage, name: string): readonly Placed[] {
  const names = carriedBy(carriage, name);
  return carriage.points.filter(({ role, member, on }) => {
    if (role === 'mark') return false;
    if (member === name && (role === 'seat' || role === 'pivot')) return true;
    return on.some((carrier) => names.has(carrier));
  });
}
