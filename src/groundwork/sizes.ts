import type { Vec2 } from '../../shared/geometry/vec.ts';
import { type Path, pathText } from '../../shared/path.ts';
import { describeField, keysAt } from '../../shared/schema/describe.ts';
import { scenarioDocument } from '../../sim/scenario/schema.ts';
import { isObject, type Json, valueAt, withValue } from '../documents/json.ts';
import { declined, type Edit, edited } from '../edits/edit.ts';
import { readFigure, writeFigure } from '../edits/figures.ts';
import { titleOf, wordsOf } from '../edits/lists.ts';
import { proportionsOf } from '../edits/proportions.ts';
import { type LaidPiece, shapeOfPiece } from './pieces.ts';

/** A length of an obstacle that can be pulled at: where, and which way it grows. */
export interface SizeHandle {
  readonly path: Path;
  readonly id: string;
  readonly entry: Path;
  readonly label: string;
  /** The vertex that moves with the figure, world, m. */
  readonly at: Vec2;
  /** How far that vertex moves per metre of the figure. */
  readonly way: Vec2;
  /** The figure, m. */
  readonly value: number;
}

/** By how much a figure is changed to see what moves with it, as a share of the figure. */
const TRIAL = 1e-3;
/** Vertices that move within this share of the most are as good as the one that moves most: the first of them is taken. */
const AS_GOOD = 0.98;
/** A figure that moves no vertex by this much of its own change shapes something else. */
const LEAST = 0.05;

/** The vertex that moves most with a figure, and how; undefined when none does, or when there are others afterwards. */
function mover(
  before: readonly Vec2[],
  after: readonly Vec2[],
  by: number,
): { readonly index: number; readonly way: Vec2 } | undefined {
  if (after.length !== before.length) return undefined;
  const ways = before.map(({ x, z }, i) => ({
    x: ((after[i]?.x ?? x) - x) / by,
    z: ((after[i]?.z ?? z) - z) / by,
  }));
  const most = ways.reduce((far, { x, z }) => Math.max(far, Math.hypot(x, z)), 0);
  if (!(most > LEAST)) return undefined;
  const index = ways.findIndex(({ x, z }) => Math.hypot(x, z) >= AS_GOOD * most);
  const way = ways[index];
  return way === undefined ? undefined : { index, way };
}

/**
 * Handles for the lengths of an obstacle, found by trying: each length that the document gives is changed a little, and the
 * handle goes to the vertex that moves most. So no kind is known here; a kind whose vertices are dealt out anew with a
 * figure has no handle for it, and is changed in its fields.
 */
export function sizeHandlesOf(document: Json, piece: LaidPiece): readonly SizeHandle[] {
  const value = valueAt(document, piece.path);
  if (!isObject(value) || piece.free) return [];
  const before = shapeOfPiece(value);
  if (before === undefined) return [];
  return keysAt(scenarioDocument, document, piece.path).flatMap((key): SizeHandle[] => {
    const path = [...piece.path, key];
    const about = describeField(scenarioDocument, document, path);
    const figure = about?.dimension === 'length' ? readFigure(value[key], 'length') : undefined;
    if (figure === undefined || figure === 0) return [];
    const by = figure * TRIAL;
    const after = shapeOfPiece({ ...value, [key]: figure + by });
    const found = after === undefined ? undefined : mover(before, after, by);
    const at = found === undefined ? undefined : before[found.index];
    if (found === undefined || at === undefined) return [];
    const { from } = piece;
    return [
      {
        path,
        id: pathText(path),
        entry: piece.path,
        label: `${wordsOf(key)} of ${piece.title} ${Number(piece.path[1]) + 1}`,
        at: { x: from.x + at.x, z: from.z + at.z },
        way: found.way,
        value: figure,
      },
    ];
  });
}

/** The figure that a pull by `by` (m, world) asks for: along the way in which the handle moves. */
export function pulledSize({ value, way }: SizeHandle, by: Vec2): number {
  const square = way.x * way.x + way.z * way.z;
  return value + (by.x * way.x + by.z * way.z) / square;
}

/** Sets a length of an obstacle, m, within its limits and in the unit that it was written in. */
export function setSize(document: Json, path: Path, to: number): Edit {
  const piece = path.slice(0, 2);
  const says = `change ${wordsOf(String(path.at(-1)))} of ${titleOf(document, piece)}`;
  const about = describeField(scenarioDocument, document, path);
  if (about?.dimension !== 'length' || !Number.isFinite(to))
    return declined(document, says, pathText(path), 'is no length that could be set');
  const { radius } = proportionsOf(document);
  const grid = 10 ** (Math.floor(Math.log10(radius)) - 2);
  const { above, least = -Infinity, most = Infinity } = about.range ?? {};
  const low = above === undefined ? least : Math.max(least, above + grid);
  const size = Math.min(most, Math.max(low, to));
  const figure = writeFigure(size, valueAt(document, path), 'length', grid);
  return edited(document, withValue(document, path, figure), says);
}
