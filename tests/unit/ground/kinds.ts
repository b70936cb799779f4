import type { Vec2 } from '../../../shared/geometry/vec.ts';
import { type Problem, problemLine } from '../../../shared/problem.ts';
import type { GroundKind, GroundSource } from '../../../sim/ground/ground.ts';

/** No files, as in the browser. */
export const noFiles: GroundSource = { file: () => undefined };

/** What a kind makes of fields as a user writes them: read by its own schema, then shaped. */
export function shapeOf(
  kind: unknown,
  written: unknown,
  source: GroundSource = noFiles,
): { points: readonly Vec2[]; problems: readonly Problem[] } {
  const known = kind as GroundKind;
  return known.shape(known.fields.parse(written), source);
}

/** The problems of a piece as lines of text. */
export const told = (kind: unknown, written: unknown, source: GroundSource = noFiles): string[] =>
  shapeOf(kind, written, source).problems.map(problemLine);

/** The points as [x, z] in mm, rounded to a nanometre. */
export const inMm = (points: readonly Vec2[]): [number, number][] =>
  points.map((p) => [Math.round(p.x * 1e9) / 1e6, Math.round(p.z * 1e9) / 1e6]);
