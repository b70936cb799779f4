import type { Vec2 } from '../../shared/geometry/vec.ts';
import { type Path, pathText } from '../../shared/path.ts';
import { schemaAt } from '../../shared/schema/describe.ts';
import type { GroundKind } from '../../sim/ground/ground.ts';
import { layGround } from '../../sim/ground/lay.ts';
import { groundKinds } from '../../sim/ground/registry.ts';
import { type Scenario, scenarioDocument } from '../../sim/scenario/schema.ts';
import { isList, isObject, type Json, valueAt, withValue } from '../documents/json.ts';
import { declined, type Edit, edited, type Remark } from './edit.ts';
import { readFigure, roundFigure, writeFigure } from './figures.ts';
import { entriesAt } from './lists.ts';
import { labelOf } from './points.ts';
import { type Proportions, proportionsOf } from './proportions.ts';
import { kindsFor, sampleFor } from './sample.ts';
import { forward, simplified } from './simplify.ts';

const list: Path = ['ground'];

type Pieces = Scenario['ground'];

/** A point of a piece of ground that is made of points, where it lies in the world. */
export interface GroundPoint {
  readonly path: Path;
  /** Station and height, m. */
  readonly at: Vec2;
}

/** Where a piece begins, m: station and height. Undefined when the ground up to there cannot be laid. */
function beginningOf(document: Json, index: number): Vec2 | undefined {
  if (index === 0) return { x: 0, z: 0 };
  const schema = schemaAt(scenarioDocument, document, list);
  const before = valueAt(document, list);
  if (schema === undefined || !isList(before)) return undefined;
  const read = schema.safeParse(before.slice(0, index));
  if (!read.success) return undefined;
  const laid = layGround(read.data as Pieces, { file: () => undefined });
  // Behind its last piece the ground goes on level.
  return laid.ok ? { x: laid.value.to, z: laid.value.z[laid.value.count - 1] ?? 0 } : undefined;
}

/** Station and height of an item of a table, from the table's own origin, m. */
function tablePoint(value: Json | undefined): Vec2 | undefined {
  if (!isObject(value)) return undefined;
  const x = readFigure(value.station, 'length');
  const z = readFigure(value.height, 'length');
  return x === undefined || z === undefined ? undefined : { x, z };
}

/** The points of one piece with the way from the table's origin to the world; undefined when it has none. */
function tableOf(document: Json, piece: Path) {
  const points = valueAt(document, [...piece, 'points']);
  const begin = beginningOf(document, Number(piece[1]));
  const first = isList(points) ? tablePoint(points[0]) : undefined;
  if (!isList(points) || begin === undefined || first === undefined) return undefined;
  return { points, offset: { x: begin.x - first.x, z: begin.z - first.z } };
}

/** All points of the ground that can be taken hold of: those of tables, in the world. */
export function groundPointsOf(document: Json): readonly GroundPoint[] {
  return entriesAt(document, list).flatMap(({ path, value }) => {
    if (value.points === undefined) return [];
    const table = tableOf(document, path);
    if (table === undefined) return [];
    return table.points.flatMap((item, i): GroundPoint[] => {
      const at = tablePoint(item);
      if (at === undefined) return [];
      return [{ path: [...path, 'points', i], at: { x: at.x + table.offset.x, z: at.z + table.offset.z } }];
    });
  });
}

/** Step below which digits of a ground mean nothing, m: a two-thousandth of the wheel radius' power of ten. */
const gridFor = ({ radius }: Proportions): number => 10 ** (Math.floor(Math.log10(radius)) - 3);

const pointText = (at: Vec2, was: Json | undefined, grid: number): Json => {
  const old = isObject(was) ? was : {};
  return {
    ...old,
    station: writeFigure(at.x, old.station, 'length', grid),
    height: writeFigure(at.z, old.height, 'length', grid),
  };
};

/**
 * Moves a point of the ground to a station and height of the world, m. It stays between its neighbours, and the first one
 * where its piece begins; remarks say so.
 * @param path of the point: ground[i].points[k]
 */
export function moveGroundPoint(document: Json, path: Path, to: Vec2): Edit {
  const says = `move ${labelOf(document, path)}`;
  const piece = path.slice(0, 2);
  const index = Number(path.at(-1));
  const table = tableOf(document, piece);
  const was = table?.points[index];
  if (table === undefined || was === undefined || !Number.isFinite(to.x) || !Number.isFinite(to.z))
    return declined(document, says, pathText(path), 'there is no point here that could be moved there');
  if (index === 0)
    return declined(document, says, pathText(path), 'lies where its piece begins: move the piece before it');
  const own = { x: to.x - table.offset.x, z: to.z - table.offset.z };
  const least = tablePoint(table.points[index - 1])?.x ?? own.x;
  const most = tablePoint(table.points[index + 1])?.x ?? own.x;
  const x = Math.max(least, Math.min(Math.max(least, most), own.x));
  const remarks: Remark[] =
    x === own.x
      ? []
      : [
          {
            path: pathText(path),
            message: 'stays between its neighbours: stations never go back',
            severity: 'warning',
          },
        ];
  const put = pointText({ x, z: own.z }, was, gridFor(proportionsOf(document)));
  return edited(document, withValue(document, path, put), says, { remarks });
}

/** Adds a point to a piece made of points, in order of its station, m, world. */
export function addGroundPoint(document: Json, piece: Path, at: Vec2): Edit {
  const table = tableOf(document, piece);
  const says = `add point to ${labelOf(document, piece)}`;
  if (table === undefined || !Number.isFinite(at.x) || !Number.isFinite(at.z))
    return declined(document, says, pathText(piece), 'is not made of points: turn it into points first');
  const own = { x: at.x - table.offset.x, z: at.z - table.offset.z };
  const behind = table.points.findIndex((item) => (tablePoint(item)?.x ?? Number.NEGATIVE_INFINITY) > own.x);
  const index = Math.max(1, behind < 0 ? table.points.length : behind);
  const like = table.points[index - 1];
  const put = pointText(own, like, gridFor(proportionsOf(document)));
  const points = [...table.points.slice(0, index), put, ...table.points.slice(index)];
  const path = [...piece, 'points'];
  return edited(document, withValue(document, path, points), says, { select: [...path, index] });
}

/** A piece of ground from points, m, in lengths that people would write. */
function pieceOf(points: readonly Vec2[], grid: number, title?: Json): Json {
  const [first = { x: 0, z: 0 }] = points;
  const items = points.map(({ x, z }) =>
    pointText({ x: x - first.x, z: z - first.z }, { station: '0 mm', height: '0 mm' }, grid),
  );
  return { kind: 'table', ...(title === undefined ? {} : { title }), points: items };
}

/** Most points of a piece that was drawn or turned into points: each can still be taken hold of. */
const MOST_POINTS = 500;

/** A line simplified until it has few enough points to be edited by hand. */
function manageable(points: readonly Vec2[], tolerance: number): readonly Vec2[] {
  let line = simplified(points, tolerance);
  for (let loose = tolerance; line.length > MOST_POINTS; line = simplified(points, loose)) loose *= 2;
  return line;
}

/** How near a simplified line stays to the drawn one, in wheel radii: a rim rolls over what is smaller. */
const NEAR = 0.02;

/**
 * Turns a line drawn by hand into a piece of ground at the end, or in place of a piece. It leads forward only, begins where
 * the ground before it ends, and keeps as few points as follow the hand within `tolerance`, m (a fiftieth of a wheel
 * radius when left out).
 */
export function drawGround(
  document: Json,
  points: readonly Vec2[],
  { tolerance, piece }: { readonly tolerance?: number; readonly piece?: Path } = {},
): Edit {
  const proportions = proportionsOf(document);
  const line = manageable(forward(points), tolerance ?? NEAR * proportions.radius);
  const [first] = line;
  const last = line.at(-1);
  if (first === undefined || last === undefined || !(last.x > first.x))
    return declined(document, 'draw ground', 'ground', 'a ground needs a line that leads forward');
  return withPiece(document, 'draw ground', pieceOf(line, gridFor(proportions)), piece);
}

/** The ground with a piece at its end, or in place of another. */
function withPiece(document: Json, says: string, entry: Json, piece?: Path): Edit {
  const was = valueAt(document, list);
  const pieces = isList(was) ? was : [];
  const index = piece === undefined ? pieces.length : Number(piece[1]);
  if (!isObject(document) || (piece !== undefined && pieces[index] === undefined))
    return declined(document, says, 'ground', 'there is no such piece');
  const next = piece === undefined ? [...pieces, entry] : pieces.map((old, i) => (i === index ? entry : old));
  return edited(document, withValue(document, list, next), says, { select: [...list, index] });
}

/** Turns any piece of ground into a table of points with the same shape, to be edited by hand. */
export function asPoints(document: Json, piece: Path): Edit {
  const says = `turn ${labelOf(document, piece)} into points`;
  const value = valueAt(document, piece);
  const schema = schemaAt(scenarioDocument, document, piece);
  const read = schema?.safeParse(value);
  const kinds = groundKinds as readonly unknown[] as readonly GroundKind[];
  const kind = isObject(value) ? kinds.find((k) => k.kind === value.kind) : undefined;
  const { points } =
    read?.success === true && kind !== undefined
      ? kind.shape(read.data as never, { file: () => undefined })
      : { points: [] };
  if (points.length < 2)
    return declined(document, says, pathText(piece), 'has a problem that has to be solved first');
  const proportions = proportionsOf(document);
  const line = manageable(points, 0.1 * NEAR * proportions.radius);
  const title = isObject(value) ? value.title : undefined;
  return withPiece(document, says, pieceOf(line, gridFor(proportions), title), piece);
}

/** One obstacle of a chain: its kind and the sizes that are wanted, as the user wrote them. */
export interface Obstacle {
  readonly kind: string;
  readonly figures?: { readonly [key: string]: Json };
}

/** Length of the vehicle over its wheels, m. */
function lengthOf(document: Json, { radius }: Proportions): number {
  const stations = entriesAt(document, ['vehicle', 'wheels']).flatMap(({ value }) =>
    isObject(value.at) ? (readFigure(value.at.x, 'length') ?? []) : [],
  );
  return stations.length === 0 ? 6 * radius : Math.max(...stations) - Math.min(...stations) + 2 * radius;
}

/** Whether a piece of ground makes sense by itself: some of its checks are made only when it is laid. */
function canBeLaid(piece: Json): boolean {
  const read = schemaAt(scenarioDocument, { ground: [piece] }, list)?.safeParse([piece]);
  return read?.success === true && layGround(read.data as Pieces, { file: () => undefined }).ok;
}

/** An obstacle with the sizes that are wanted; figures of the sample that contradict them (radius or height) are left out. */
function obstacleOf(document: Json, { kind, figures = {} }: Obstacle, proportions: Proportions): Json {
  const addable = kindsFor(list).find((k) => k.kind === kind);
  const sample = addable === undefined ? {} : sampleFor(document, list, addable, proportions);
  const whole: { readonly [key: string]: Json } = { ...(isObject(sample) ? sample : {}), kind, ...figures };
  const extra = Object.keys(whole).filter((key) => key !== 'kind' && !Object.hasOwn(figures, key));
  const less = extra.map((key): Json => Object.fromEntries(Object.entries(whole).filter(([k]) => k !== key)));
  return [whole, ...less, { kind, ...figures }].find(canBeLaid) ?? whole;
}

/**
 * A whole ground from a list of obstacles: level ground longer than the vehicle, then each obstacle with `between` metres
 * of level ground behind it (a vehicle's length when left out), the last with enough to drive off. Sizes that are not given
 * suit the vehicle.
 */
export function chainObstacles(document: Json, obstacles: readonly Obstacle[], between?: number): Edit {
  const proportions = proportionsOf(document);
  const kinds = kindsFor(list);
  const unknown = obstacles.find(({ kind }) => !kinds.some((k) => k.kind === kind));
  if (obstacles.length === 0 || unknown !== undefined || !isObject(document))
    return declined(
      document,
      'chain obstacles',
      'ground',
      unknown === undefined ? 'a chain needs an obstacle' : `there is no ground called '${unknown.kind}'`,
    );
  const own = lengthOf(document, proportions);
  const flat = (length: number): Json => ({ kind: 'flat', length: roundFigure(length, 'length') });
  const pieces = obstacles.flatMap((wanted, i): Json[] => {
    const obstacle = obstacleOf(document, wanted, proportions);
    const isLast = i === obstacles.length - 1;
    const behind = isLast ? Math.max(between ?? 0, 1.3 * own) : (between ?? own);
    return [obstacle, ...(behind > 0 ? [flat(behind)] : [])];
  });
  return edited(document, withValue(document, list, [flat(1.3 * own), ...pieces]), 'chain obstacles', {
    select: ['ground', 1],
  });
}

/** Moves an entry to another place of its list: a piece of ground forward, a criterion up. `to`: its new index. */
export function reorderEntry(document: Json, path: Path, to: number): Edit {
  const at = path.slice(0, -1);
  const from = Number(path.at(-1));
  const says = `move ${labelOf(document, path)} to place ${to + 1}`;
  const entries = valueAt(document, at);
  const entry = isList(entries) ? entries[from] : undefined;
  if (!isList(entries) || entry === undefined || !Number.isInteger(to) || to < 0 || to >= entries.length)
    return declined(document, says, pathText(path), 'there is no such place in this list');
  if (to === from) return edited(document, document, says, { select: path });
  const others = entries.filter((_, i) => i !== from);
  const after = withValue(document, at, [...others.slice(0, to), entry, ...others.slice(to)]);
  return edited(document, after, says, { select: [...at, to] });
}
