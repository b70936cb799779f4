import type { Vec2 } from '../../shared/geometry/vec.ts';
import { type Path, pathText } from '../../shared/path.ts';
import type { Problem } from '../../shared/problem.ts';
import { schemaAt } from '../../shared/schema/describe.ts';
import type { GroundKind } from '../../sim/ground/ground.ts';
import { groundKinds } from '../../sim/ground/registry.ts';
import { scenarioDocument } from '../../sim/scenario/schema.ts';
import { isList, isObject, type Json, valueAt } from '../documents/json.ts';
import { readFigure } from '../edits/figures.ts';

/** A piece of ground where it lies, whether or not the whole document makes sense. */
export interface LaidPiece {
  readonly path: Path;
  /** What it is called: its own title, else that of its kind. */
  readonly title: string;
  /** Title of its kind. */
  readonly kind: string;
  /** Where it begins and ends, world, m; the same place for one that cannot be laid. */
  readonly from: Vec2;
  readonly to: Vec2;
  /** Its line, world, m; empty when it cannot be laid. */
  readonly points: readonly Vec2[];
  /** Its points can be taken hold of: it is a table. */
  readonly free: boolean;
}

/** A point of the ground that can be taken hold of. */
export interface GroundHandle {
  readonly path: Path;
  readonly id: string;
  readonly entry: Path;
  readonly label: string;
  /** World, m. */
  readonly at: Vec2;
}

const noFiles = { file: () => undefined };

/** The registered kind of a piece as it was written. */
export function kindOfPiece(piece: Json | undefined): GroundKind | undefined {
  const kinds = groundKinds as readonly unknown[] as readonly GroundKind[];
  return isObject(piece) ? kinds.find(({ kind }) => kind === piece.kind) : undefined;
}

/** The line of one piece from its own beginning, m; undefined when it has an error. */
export function shapeOfPiece(piece: Json): readonly Vec2[] | undefined {
  const kind = kindOfPiece(piece);
  const read = schemaAt(scenarioDocument, { ground: [piece] }, ['ground', 0])?.safeParse(piece);
  if (kind === undefined || read?.success !== true) return undefined;
  const { points, problems } = kind.shape(read.data as never, noFiles);
  const broken = problems.some(({ severity }) => severity === 'error');
  return broken || points.length === 0 ? undefined : points;
}

interface Shape {
  readonly points: readonly Vec2[];
  /** It can be laid. */
  readonly whole: boolean;
}

/** Stands for a point that is none. */
const UNREADABLE = 'unreadable';

function shapeOf(piece: Json): Shape {
  const points = shapeOfPiece(piece);
  return points === undefined ? { points: [], whole: false } : { points, whole: true };
}

/**
 * Lays the ground of documents piece by piece. What did not change since the last document is not read again, neither
 * pieces nor points of tables: a drag reads the one point that it moves, though the table has thousands.
 */
export class GroundReader {
  readonly #shapes = new WeakMap<object, Shape>();
  readonly #places = new WeakMap<object, Vec2 | typeof UNREADABLE>();

  #shapeOf(piece: { readonly [key: string]: Json }): Shape {
    const known = this.#shapes.get(piece);
    if (known !== undefined) return known;
    const made = piece.kind === 'table' ? this.#tableOf(piece.points) : shapeOf(piece);
    this.#shapes.set(piece, made);
    return made;
  }

  /** A table's points, from its first one, m. It is broken where one cannot be read or stations go back. */
  #tableOf(points: Json | undefined): Shape {
    const read = isList(points) ? points.map((item) => this.#placeOf(item)) : [];
    const [first] = read;
    if (first === undefined || first === UNREADABLE) return { points: [], whole: false };
    let whole = read.length > 1;
    let last = first;
    const line = read.map((p) => {
      if (p === UNREADABLE || p.x < last.x) whole = false;
      if (p !== UNREADABLE) last = p;
      return { x: last.x - first.x, z: last.z - first.z };
    });
    return { points: line, whole };
  }

  #placeOf(item: Json): Vec2 | typeof UNREADABLE {
    if (!isObject(item)) return UNREADABLE;
    const known = this.#places.get(item);
    if (known !== undefined) return known;
    const x = readFigure(item.station, 'length');
    const z = readFigure(item.height, 'length');
    const place = x === undefined || z === undefined ? UNREADABLE : { x, z };
    this.#places.set(item, place);
    return place;
  }

  /** The pieces of a document's ground in order. One that cannot be laid takes no room. */
  read(document: Json): readonly LaidPiece[] {
    const list = valueAt(document, ['ground']);
    if (!isList(list)) return [];
    let from: Vec2 = { x: 0, z: 0 };
    return list.map((piece, i): LaidPiece => {
      const kind = kindOfPiece(piece);
      const about = kind?.title ?? 'Unknown';
      const begin = from;
      const { points, whole } = isObject(piece) ? this.#shapeOf(piece) : { points: [], whole: false };
      const line = points.map(({ x, z }) => ({ x: begin.x + x, z: begin.z + z }));
      const to = whole ? (line.at(-1) ?? begin) : begin;
      from = to;
      const named = isObject(piece) && typeof piece.title === 'string' && piece.title !== '';
      return {
        path: ['ground', i],
        title: named ? String(piece.title) : about,
        kind: about,
        from: begin,
        to,
        points: line,
        free: kind?.kind === 'table',
      };
    });
  }
}

/** The piece at a station, m: the last one that begins there; undefined before the first and behind the last. */
export function pieceAt(pieces: readonly LaidPiece[], station: number): LaidPiece | undefined {
  return pieces.findLast(({ from, to }) => from.x <= station && station <= to.x);
}

/** Height of the ground at a station, m: level before its beginning and behind its end. */
export function heightOf(pieces: readonly LaidPiece[], station: number): number {
  const piece = pieceAt(pieces, station);
  if (piece === undefined) return station < 0 ? 0 : (pieces.at(-1)?.to.z ?? 0);
  const { points } = piece;
  const after = points.findIndex(({ x }) => x >= station);
  const b = points[Math.max(after, 0)] ?? piece.to;
  const a = points[after - 1] ?? b;
  return b.x === a.x ? b.z : a.z + ((b.z - a.z) * (station - a.x)) / (b.x - a.x);
}

/** A point of a piece as something to take hold of. Points are counted from 1 for people. */
export function handleOf(piece: LaidPiece, index: number): GroundHandle | undefined {
  const at = piece.points[index];
  if (!piece.free || at === undefined) return undefined;
  const path = [...piece.path, 'points', index];
  const label = `point ${index + 1} of ${piece.title} ${Number(piece.path[1]) + 1}`;
  return { path, id: pathText(path), entry: piece.path, label, at };
}

/** Points in sight: those that can be told apart, and how many there are besides. */
export interface InSight {
  readonly handles: readonly GroundHandle[];
  readonly hidden: number;
}

/**
 * The points between two stations that lie at least `gap` m apart, so that a hand can tell one from the next; `wanted` is
 * always among them. The first point of a piece lies where its piece begins and cannot be moved, so it is left out.
 */
export function handlesInSight(
  pieces: readonly LaidPiece[],
  { from, to, gap }: { readonly from: number; readonly to: number; readonly gap: number },
  wanted?: Path,
): InSight {
  const kept = wanted === undefined ? undefined : pathText(wanted);
  const handles: GroundHandle[] = [];
  let hidden = 0;
  for (const piece of pieces) {
    if (!piece.free || piece.to.x < from || piece.from.x > to) continue;
    let last: Vec2 | undefined;
    for (let i = 1; i < piece.points.length; i++) {
      const at = piece.points[i] as Vec2;
      if (at.x < from || at.x > to) continue;
      const near = last !== undefined && Math.hypot(at.x - last.x, at.z - last.z) < gap;
      const isWanted = near && kept !== undefined && kept === `${pathText(piece.path)}.points[${i}]`;
      if (near && !isWanted) {
        hidden += 1;
        continue;
      }
      last = at;
      const handle = handleOf(piece, i);
      if (handle !== undefined) handles.push(handle);
    }
  }
  return { handles, hidden };
}

/** The problems of one piece of ground: those whose path lies in it. */
export function problemsOf(problems: readonly Problem[], piece: Path): readonly Problem[] {
  const id = pathText(piece);
  return problems.filter(({ path }) => path === id || path.startsWith(`${id}.`) || path.startsWith(`${id}[`));
}

/** A problem in one sentence. */
export const inWords = ({ message, hint }: Problem): string =>
  hint === undefined ? message : `${message}; ${hint}`;
