import type { z } from 'zod';
import type { Vec2 } from '../../shared/geometry/vec.ts';
import type { Path } from '../../shared/path.ts';
import { describeField, optionFor, schemaAt, shapeOf } from '../../shared/schema/describe.ts';
import { scenarioDocument } from '../../sim/scenario/schema.ts';
import { isList, isObject, type Json, valueAt } from '../documents/json.ts';
import { readPoint } from './figures.ts';
import { entryOf, titleOf, wordsOf } from './lists.ts';

/** A point of the drawing as it stands in a document. */
export interface DocumentPoint {
  readonly path: Path;
  readonly entry: Path;
  /** m, drawing. */
  readonly at: Vec2;
}

/** Parts of a document that hold points of the drawing; the ground has points of its own. */
const drawn = ['vehicle', 'run'] as const;

/** Whether the schema's object is a point: x and z, both lengths, perhaps with the member that carries it. */
function isPoint(shape: Readonly<Record<string, z.ZodType>>): boolean {
  return ['x', 'z'].every(
    (key) => shape[key] !== undefined && describeField(shape[key], undefined, [])?.dimension === 'length',
  );
}

/** Calls `found` for each point below a value, in the order of the document. */
function visit(schema: z.ZodType, value: Json, path: Path, found: (path: Path, value: Json) => void): void {
  const option = optionFor(schema, value);
  if (option === undefined) return;
  if (isList(value)) {
    value.forEach((inner, i) => {
      const item = schemaAt(option, value, [i]);
      if (item !== undefined) visit(item, inner, [...path, i], found);
    });
    return;
  }
  const shape = shapeOf(option);
  if (shape === undefined || !isObject(value)) return;
  if (isPoint(shape)) {
    found(path, value);
    return;
  }
  for (const [key, inner] of Object.entries(value)) {
    const field = Object.hasOwn(shape, key) ? shape[key] : undefined;
    if (field !== undefined) visit(field, inner, [...path, key], found);
  }
}

/** Every point of the drawing in a document, found by walking document and schema together; unreadable ones left out. */
export function pointsOf(document: Json): readonly DocumentPoint[] {
  const points: DocumentPoint[] = [];
  for (const part of drawn) {
    const schema = schemaAt(scenarioDocument, document, [part]);
    const value = valueAt(document, [part]);
    if (schema === undefined || value === undefined) continue;
    visit(schema, value, [part], (path, written) => {
      const at = readPoint(written);
      if (at !== undefined) points.push({ path, entry: entryOf(path), at });
    });
  }
  return points;
}

/** What a place of an entry is called: 'pivot of rear-arm', 'wheel front', 'point 3 of outline 2', 'reference'. */
export function labelOf(document: Json, path: Path): string {
  const entry = entryOf(path);
  const words = path
    .slice(entry.length)
    .filter((step) => step !== 'at' && step !== 'on' && step !== 'points')
    .map((step) => (typeof step === 'number' ? `point ${step + 1}` : wordsOf(step)))
    .join(' ');
  const title = titleOf(document, entry);
  return words === '' ? title : `${words} of ${title}`;
}
