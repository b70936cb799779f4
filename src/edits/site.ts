import { add, sub, type Vec2 } from '../../shared/geometry/vec.ts';
import { type Path, pathText } from '../../shared/path.ts';
import { isList, type Json, valueAt, withValue } from '../documents/json.ts';
import type { Carriage } from './carriage.ts';
import { writePoint } from './figures.ts';
import { type DocumentPoint, pointsOf } from './points.ts';
import type { Proportions } from './proportions.ts';
import { appended } from './put.ts';

/** Where something is added: the vehicle as it is, and the place that was asked for. */
export interface Site {
  readonly document: Json;
  readonly carriage: Carriage;
  readonly proportions: Proportions;
  /** m, drawing. */
  readonly at?: Vec2;
}

/** A point of an entry that is not in the document yet, its path counted from the entry. */
type Inner = DocumentPoint;

/** The points of an entry as it would stand at the end of a list. */
export function pointsOfNew(document: Json, list: Path, entry: Json): readonly Inner[] {
  const trial = appended(document, list, [entry]);
  const items = valueAt(trial, list);
  const path = pathText([...list, isList(items) ? items.length - 1 : 0]);
  return pointsOf(trial)
    .filter((point) => pathText(point.entry) === path)
    .map((point) => ({ ...point, path: point.path.slice(list.length + 1) }));
}

/** A new entry with its points moved by a way, m. */
export function movedBy(entry: Json, points: readonly Inner[], way: Vec2, grid: number): Json {
  return points.reduce<Json>(
    (now, { path, at }) => withValue(now, path, writePoint(add(at, way), valueAt(now, path), grid)),
    entry,
  );
}

/** The way from one place to another, m. */
export const wayTo = (to: Vec2, from: Vec2): Vec2 => sub(to, from);
