import { add, distance, scale, sub, turn, type Vec2 } from '../../shared/geometry/vec.ts';
import type { Path } from '../../shared/path.ts';
import { describeField, keysAt } from '../../shared/schema/describe.ts';
import { scenarioDocument } from '../../sim/scenario/schema.ts';
import { type Json, valueAt } from '../documents/json.ts';
import { type Carriage, carriageOf, jointOf, type Placed } from './carriage.ts';
import type { Handle } from './edit.ts';
import { readFigure } from './figures.ts';
import { entriesAt, entryLists, nameAt } from './lists.ts';
import { labelOf } from './points.ts';

/** What an angle of an entry turns about, and where its figure is 0. */
interface Turning {
  readonly about: Vec2;
  readonly zero: number;
  readonly sense: 1 | -1;
  /** How far from there its handle is drawn, m. */
  readonly reach: number;
}

const directionOf = (from: Vec2, to: Vec2): number => Math.atan2(to.z - from.z, to.x - from.x);

/** Angles are drawn at this share of the vehicle's size where nothing says how far out. */
const REACH = 0.15;

/** The point of a member that lies farthest from its pivot. */
function farthest(points: readonly Placed[], from: Vec2): Vec2 | undefined {
  return points.reduce<Vec2 | undefined>(
    (best, { at }) => (best === undefined || distance(at, from) > distance(best, from) ? at : best),
    undefined,
  );
}

/** A stop of a member that turns: the ray from its pivot to its end, turned to the stop. */
function ofStop(carriage: Carriage, name: string, upward: 1 | -1): Turning | undefined {
  const joint = jointOf(carriage.tree, name);
  if (joint?.kind !== 'hinge') return undefined;
  const end = farthest(
    carriage.points.filter(({ member, role }) => member === name && role === 'own'),
    joint.anchor,
  );
  const at = end ?? add(joint.anchor, { x: REACH * carriage.size, z: 0 });
  const sense = (joint.sign * upward) as 1 | -1;
  return {
    about: joint.anchor,
    zero: directionOf(joint.anchor, at),
    sense,
    reach: distance(joint.anchor, at),
  };
}

/** An angle of an entry with one place: `zero` is where its figure is 0. */
function ofPlace(carriage: Carriage, entry: Path, zero: number): Turning | undefined {
  const place = carriage.points.find((point) => point.entry.join() === entry.join());
  return place && { about: place.at, zero, sense: 1, reach: REACH * carriage.size };
}

/**
 * Angles that are turned in the drawing, by key: what each turns about. An angle with a key of its own gets a handle by
 * its line here. Stops: the words of `MemberBuilder.stops`.
 */
const turnings: Readonly<
  Record<string, (carriage: Carriage, entry: Path, name: string) => Turning | undefined>
> = {
  bump: (carriage, _entry, name) => ofStop(carriage, name, 1),
  droop: (carriage, _entry, name) => ofStop(carriage, name, -1),
  lean: (carriage, entry) => ofPlace(carriage, entry, Math.PI / 2),
  angle: (carriage, entry) => ofPlace(carriage, entry, 0),
};

/** The angles of one entry that stand in the document (or have a standard value) and can be turned. */
function anglesOf(document: Json, carriage: Carriage, entry: Path): readonly Handle[] {
  return keysAt(scenarioDocument, document, entry).flatMap((key): Handle[] => {
    const turning = Object.hasOwn(turnings, key)
      ? turnings[key]?.(carriage, entry, nameAt(document, entry) ?? '')
      : undefined;
    if (turning === undefined) return [];
    const path = [...entry, key];
    const about = describeField(scenarioDocument, document, path);
    if (about?.dimension !== 'angle') return [];
    const standard = typeof about.standard === 'number' ? about.standard : undefined;
    const value = readFigure(valueAt(document, path), 'angle') ?? standard;
    if (value === undefined) return [];
    const { zero, sense, reach } = turning;
    const at = add(turning.about, turn({ x: reach, z: 0 }, zero + sense * value));
    const label = labelOf(document, path);
    return [{ path, entry, label, kind: 'angle', at, value, about: turning.about, zero, sense }];
  });
}

/**
 * Every place of a document's vehicle that can be taken hold of: all points that the schema knows, and all angles that
 * turn about something in the drawing. Places that cannot be read are left out; nothing is thrown.
 */
export function handlesOf(document: Json): readonly Handle[] {
  const carriage = carriageOf(document);
  const points = carriage.points.map(
    ({ path, entry, at }): Handle => ({ path, entry, label: labelOf(document, path), kind: 'point', at }),
  );
  const entries = entryLists
    .filter(({ path }) => path[0] !== 'ground' && path[0] !== 'criteria')
    .flatMap(({ path }) => entriesAt(document, path));
  return [...points, ...entries.flatMap(({ path }) => anglesOf(document, carriage, path))];
}

/** Turns are given between −π and π. */
const wrapped = (angle: number): number => angle - 2 * Math.PI * Math.round(angle / (2 * Math.PI));

/**
 * The figure (rad) that an angle's handle has when it is pulled to a place of the drawing; its present one for a place
 * that lies on what it turns about.
 */
export function angleToward(handle: Handle, to: Vec2): number {
  const { about, zero = 0, sense = 1, value = 0 } = handle;
  if (about === undefined) return value;
  const ray = sub(to, about);
  if (Math.hypot(ray.x, ray.z) === 0) return value;
  return wrapped(sense * (directionOf(scale(about, 0), ray) - zero));
}
