import type { Vec2 } from '../../shared/geometry/vec.ts';
import { type Json, valueAt, withValue } from '../documents/json.ts';
import type { Placed } from './carriage.ts';
import { writePoint } from './figures.ts';

/** Where points come to lie, by written path. */
export type Places = Map<string, { readonly point: Placed; readonly to: Vec2 }>;

/** Puts points at new places of the document; `grid`: step below which digits mean nothing, m. */
export function withPlaces(document: Json, places: Places, grid: number): Json {
  return [...places.values()].reduce<Json>((now, { point, to }) => {
    const was = valueAt(now, point.path);
    const written = writePoint(to, was, grid);
    return written === was ? now : withValue(now, point.path, written);
  }, document);
}
