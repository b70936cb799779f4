import type { Vec2 } from '../../shared/geometry/vec.ts';
import { formatQuantity } from '../../shared/units.ts';
import type { Json } from '../documents/json.ts';
import { declined, type Edit } from '../edits/edit.ts';
import { drawGround, reorderEntry } from '../edits/ground.ts';
import { forward, simplified } from '../edits/simplify.ts';

/** Tolerances that are offered, in wheel radii: from what a tyre does not feel to what a wheel just rolls over. */
export const TOLERANCE = { least: 0.002, usual: 0.02, most: 0.3 } as const;

/** A slope that is worth a word, rad: 60°, on which no tyre holds by friction alone. Common practice, no source. */
const STEEP = Math.PI / 3;

/** What became of a line that was drawn by hand. */
export interface Stroke {
  /** The line as it leads forward, world, m. */
  readonly line: readonly Vec2[];
  /** What a builder should know of it, a sentence each. */
  readonly words: readonly string[];
}

/** How far a line goes along the stations, forward and back, m. */
function ways(points: readonly Vec2[]): { readonly on: number; readonly back: number } {
  let [on, back] = [0, 0];
  for (let i = 1; i < points.length; i++) {
    const by = (points[i] as Vec2).x - (points[i - 1] as Vec2).x;
    if (by > 0) on += by;
    else back -= by;
  }
  return { on, back };
}

/** The steepest part of a line and the highest face, with where they are. */
function steepest(line: readonly Vec2[]) {
  let slope = { angle: 0, at: 0 };
  let face = { height: 0, at: 0 };
  for (let i = 1; i < line.length; i++) {
    const [a, b] = [line[i - 1] as Vec2, line[i] as Vec2];
    const rise = Math.abs(b.z - a.z);
    const angle = Math.atan2(rise, b.x - a.x);
    if (rise > 0 && angle > slope.angle) slope = { angle, at: a.x };
    if (angle > STEEP && rise > face.height) face = { height: rise, at: a.x };
  }
  return { slope, face };
}

const length = (si: number): string => formatQuantity(si, 'length', 3);

/**
 * Makes a ground out of what a hand drew: a line drawn from right to left is turned round, and where the hand went back
 * the ground goes straight on, since it has one height at each station.
 * @param radius wheel radius, m
 */
export function strokeOf(points: readonly Vec2[], radius: number): Stroke {
  const words: string[] = [];
  const { on, back } = ways(points);
  const turned = back > on;
  const drawn = turned ? [...points].reverse() : points;
  if (turned)
    words.push('It was drawn from right to left and has been turned round: forward is to the right.');
  const line = forward(drawn);
  const lost = Math.min(on, back);
  if (lost > 0.02 * (on + back))
    words.push(
      `The hand went back by ${length(lost)}. A ground has one height at each station, so it goes straight on there.`,
    );
  return { line, words: [...words, ...steepWords(line, radius)] };
}

/** What is to be said of steep places, once the line is as coarse as it will be. */
export function steepWords(line: readonly Vec2[], radius: number): readonly string[] {
  const { slope, face } = steepest(line);
  if (slope.angle <= STEEP) return [];
  const degrees = Math.round((slope.angle * 180) / Math.PI);
  const at = `at station ${length(slope.at - (line[0]?.x ?? 0))} of the piece`;
  const how = degrees >= 89 ? `It stands upright ${at}.` : `It is ${degrees}° steep ${at}.`;
  return face.height > radius
    ? [`${how} The face is ${length(face.height)} high, more than a wheel's radius of ${length(radius)}.`]
    : [how];
}

/** A line as few points as follow it within a tolerance, m. */
export const simplifiedStroke = (line: readonly Vec2[], tolerance: number): readonly Vec2[] =>
  line.length < 3 ? line : simplified(line, tolerance);

/** Where a drawn line goes: to the end of the ground, behind a piece, or in place of one. */
export type Target =
  | { readonly kind: 'end' }
  | { readonly kind: 'behind' | 'instead'; readonly piece: readonly (string | number)[] };

/** Lays a drawn line as a piece of ground. One edit, wherever it goes. */
export function layStroke(document: Json, line: readonly Vec2[], tolerance: number, target: Target): Edit {
  const span = (line.at(-1)?.x ?? 0) - (line[0]?.x ?? 0);
  if (line.length < 2 || !(span > 0))
    return declined(document, 'draw ground', 'ground', 'a ground needs a line that leads forward');
  if (target.kind === 'instead') return drawGround(document, line, { tolerance, piece: target.piece });
  const drawn = drawGround(document, line, { tolerance });
  if (target.kind === 'end' || drawn.select === undefined) return drawn;
  const moved = reorderEntry(drawn.document, drawn.select, Number(target.piece[1]) + 1);
  return { ...moved, says: drawn.says, remarks: drawn.remarks };
}
