import { add, type Vec2 } from '../../shared/geometry/vec.ts';
import { type Path, pathText } from '../../shared/path.ts';
import { type Json, valueAt } from '../documents/json.ts';
import { type Carriage, carriageOf, carriedBy, type Placed, pointsWith, tiedTo } from './carriage.ts';
import { declined, type Edit, edited } from './edit.ts';
import { readPoint, writeFigure, writePoint } from './figures.ts';
import { heldLengths } from './hold.ts';
import { entryOf, listOf, nameAt, titleOf } from './lists.ts';
import { type Places, withPlaces } from './places.ts';
import { labelOf } from './points.ts';
import { put } from './put.ts';

/** How a point is moved. */
export interface MoveOptions {
  /** Breaks the tie: only this point moves. */
  readonly alone?: boolean;
  /** Rods keep their length: what hangs at their other end turns, where it can. */
  readonly holdRods?: boolean;
}

/** Whether a place drags the member that hangs there by this pivot: it is a point of what carries the member. */
const drags = (point: Placed, pivot: Placed): boolean =>
  point !== pivot && point.role !== 'pivot' && point.role !== 'mount' && point.role !== 'end';

/** Points that go along when a point is moved, itself included. */
function going(carriage: Carriage, point: Placed): readonly Placed[] {
  if (point.role === 'rider' || point.role === 'line' || point.role === 'mark') return [point];
  return tiedTo(carriage, point).flatMap((tied) => {
    const whole = tied.role === 'seat' || (tied.role === 'pivot' && drags(point, tied));
    return whole && tied.member !== undefined ? [tied, ...pointsWith(carriage, tied.member)] : [tied];
  });
}

/** A place as it will stand in the document: with the digits that are meant. */
function asWritten(document: Json, path: Path, to: Vec2, grid: number): Vec2 {
  return readPoint(writePoint(to, valueAt(document, path), grid)) ?? to;
}

/** Moves points by the same way, m. */
function shifted(points: readonly Placed[], by: Vec2): Places {
  return new Map(points.map((point) => [pathText(point.path), { point, to: add(point.at, by) }]));
}

/**
 * Moves a point of the drawing to `to`, m. What sits there goes along: the hub of a wheel at an arm's end, a member that
 * hangs there with all that it carries, pins of others at the same place. The pivot of a beam or arm moves alone, with
 * other pins at the same place. `alone` moves this point and nothing else; `holdRods` keeps the lengths of rods.
 * Remarks tell what the move breaks.
 */
export function movePoint(document: Json, path: Path, to: Vec2, options: MoveOptions = {}): Edit {
  const carriage = carriageOf(document);
  const says = `move ${labelOf(document, path)}`;
  const point = carriage.points.find((p) => pathText(p.path) === pathText(path));
  if (point === undefined || !Number.isFinite(to.x) || !Number.isFinite(to.z))
    return declined(document, says, pathText(path), 'there is no point here that could be moved there');
  const at = asWritten(document, path, to, carriage.grid);
  const by = { x: at.x - point.at.x, z: at.z - point.at.z };
  const places = shifted(options.alone === true ? [point] : going(carriage, point), by);
  places.set(pathText(path), { point, to: at });
  const held = options.holdRods === true ? heldLengths(carriage, places) : [];
  return edited(document, withPlaces(document, places, carriage.grid), says, { remarks: held });
}

/** The points that make up an entry with everything that it carries. */
function pointsOfEntry(document: Json, carriage: Carriage, entry: Path): readonly Placed[] {
  const own = carriage.points.filter((point) => pathText(point.entry) === pathText(entry));
  const name = nameAt(document, entry);
  if (listOf(entry)?.noun !== 'member' || name === undefined) return own;
  const names = carriedBy(carriage, name);
  const parent = carriage.parents.get(name) ?? 'chassis';
  const along = [...own, ...pointsWith(carriage, name)];
  const entries = new Set(
    along.filter(({ role }) => role === 'rider' || role === 'end').map((p) => pathText(p.entry)),
  );
  // A spring or a rod between the member and what it hangs on goes along with both ends.
  const feet = carriage.points.filter(
    (p) => entries.has(pathText(p.entry)) && p.on.every((on) => on === parent || names.has(on)),
  );
  const hung = own
    .filter(({ role }) => role === 'pivot' || role === 'seat')
    .flatMap((pin) =>
      tiedTo(carriage, pin).filter(({ role, member }) => role === 'own' && member === parent),
    );
  return [...along, ...feet, ...hung];
}

/** Moves an entry by a way, m, with everything that it carries: an axle with its wheel, springs and masses. */
export function moveEntry(document: Json, path: Path, by: Vec2): Edit {
  const carriage = carriageOf(document);
  const entry = entryOf(path);
  const says = `move ${titleOf(document, entry)}`;
  const points = pointsOfEntry(document, carriage, entry);
  const [first] = points;
  if (first === undefined || !Number.isFinite(by.x) || !Number.isFinite(by.z))
    return declined(document, says, pathText(entry), 'has no point that could be moved there');
  const to = asWritten(document, first.path, add(first.at, by), carriage.grid);
  const way = { x: to.x - first.at.x, z: to.z - first.at.z };
  return edited(document, withPlaces(document, shifted(points, way), carriage.grid), says);
}

/** Step below which digits of an angle mean nothing: 0.01°. */
const ANGLE_GRID = Math.PI / 18_000;

/** Turns an angle to `to`, rad, in the unit that it is written in. Limits are told as remarks. */
export function turnAngle(document: Json, path: Path, to: number): Edit {
  const says = `turn ${labelOf(document, path)}`;
  const was = valueAt(document, path);
  const after = Number.isFinite(to)
    ? put(document, path, writeFigure(to, was, 'angle', ANGLE_GRID))
    : undefined;
  return after === undefined
    ? declined(document, says, pathText(path), 'there is no such angle')
    : edited(document, after, says);
}
