import type { Vec2 } from '../../shared/geometry/vec.ts';
import { type Path, pathText } from '../../shared/path.ts';
import type { Json } from '../documents/json.ts';
import { declined, type Edit } from '../edits/edit.ts';
import { addGroundPoint, drawGround } from '../edits/ground.ts';
import { type GroundHandle, handleOf, type LaidPiece, pieceAt } from './pieces.ts';

/** All points that can be moved, in order. */
export function allHandles(pieces: readonly LaidPiece[]): readonly { piece: LaidPiece; index: number }[] {
  return pieces.flatMap((piece) =>
    piece.free ? piece.points.slice(1).map((_, i) => ({ piece, index: i + 1 })) : [],
  );
}

/** The point after the one at `now` (`by` 1) or before it (−1); first of the selected piece, else of all. */
export function neighbour(
  pieces: readonly LaidPiece[],
  now: Path | undefined,
  entry: Path | undefined,
  by: 1 | -1,
): GroundHandle | undefined {
  const all = allHandles(pieces);
  const id = now === undefined ? undefined : pathText(now);
  const at = all.findIndex(({ piece, index }) => `${pathText(piece.path)}.points[${index}]` === id);
  const mine = all.findIndex(({ piece }) => entry !== undefined && pathText(piece.path) === pathText(entry));
  const found = all[at < 0 ? Math.max(mine, 0) : (at + by + all.length) % all.length];
  return found === undefined ? undefined : handleOf(found.piece, found.index);
}

/** The piece that a point path belongs to, and the point's number. */
export function placeOf(
  pieces: readonly LaidPiece[],
  point: Path | undefined,
): { readonly piece: LaidPiece; readonly index: number } | undefined {
  if (point === undefined || point[0] !== 'ground' || point[2] !== 'points') return undefined;
  const piece = pieces[Number(point[1])];
  const index = Number(point[3]);
  return piece?.points[index] === undefined ? undefined : { piece, index };
}

/**
 * Adds a point at a place of the world, m: to the table that lies there; behind the end of the ground the ground is drawn
 * on. A piece that is made from sizes takes none, and the remark says what to do.
 */
export function addPointAt(document: Json, pieces: readonly LaidPiece[], at: Vec2): Edit {
  const last = pieces.at(-1);
  const piece = pieceAt(pieces, at.x);
  if (piece?.free === true) return addGroundPoint(document, piece.path, at);
  const end = last?.to ?? { x: 0, z: 0 };
  if (at.x > end.x) {
    if (last?.free === true) return addGroundPoint(document, last.path, at);
    return { ...drawGround(document, [end, at], { tolerance: 0 }), says: 'add point behind the ground' };
  }
  if (piece === undefined)
    return declined(
      document,
      'add point',
      'ground',
      'the ground begins at station 0: nothing lies before it',
    );
  return declined(
    document,
    'add point',
    pathText(piece.path),
    `${piece.title} is made from sizes: turn it into points first`,
  );
}

/** Adds a point behind another: half way to the next one, or one step on behind the last. */
export function addPointBehind(
  document: Json,
  { piece, index }: { readonly piece: LaidPiece; readonly index: number },
  step: number,
): Edit {
  const here = piece.points[index] as Vec2;
  const next = piece.points[index + 1];
  const at =
    next === undefined
      ? { x: here.x + step, z: here.z }
      : { x: (here.x + next.x) / 2, z: (here.z + next.z) / 2 };
  return addGroundPoint(document, piece.path, at);
}

/** Slopes before and behind a point, rad, up positive; undefined where there is none. */
export function slopesAt(
  piece: LaidPiece,
  index: number,
): { readonly before: number | undefined; readonly behind: number | undefined } {
  const slope = (a: Vec2 | undefined, b: Vec2 | undefined): number | undefined =>
    a === undefined || b === undefined ? undefined : Math.atan2(b.z - a.z, b.x - a.x);
  return {
    before: slope(piece.points[index - 1], piece.points[index]),
    behind: slope(piece.points[index], piece.points[index + 1]),
  };
}
