import type { Path } from '../../shared/path.ts';
import { describeField } from '../../shared/schema/describe.ts';
import type { Dimension } from '../../shared/units.ts';
import { scenarioDocument } from '../../sim/scenario/schema.ts';
import { isList, isObject, type Json, valueAt, withValue } from '../documents/json.ts';
import { readFigure, roundFigure, writeFigure } from './figures.ts';

/** Digits of computed figures; lengths of the drawing have a step instead, m. */
const DIGITS = 4;
const STEP = 1e-5;

const textFor = (si: number, dimension: Dimension): Json =>
  dimension === 'length' ? writeFigure(si, undefined, dimension, STEP) : roundFigure(si, dimension, DIGITS);

/** A value as the document writes it: figures with units, without what stands there by itself and what is left open. */
function clean(document: Json, path: Path, value: Json): Json {
  if (isList(value)) return value.map((item, i) => clean(document, [...path, i], item));
  if (isObject(value))
    return Object.fromEntries(
      Object.entries(value).flatMap(([key, inner]) =>
        inner === undefined || isStandard(document, [...path, key], inner)
          ? []
          : [[key, clean(document, [...path, key], inner)]],
      ),
    );
  const { dimension } = describeField(scenarioDocument, document, path) ?? {};
  return dimension === undefined || typeof value !== 'number' ? value : textFor(value, dimension);
}

/** Whether a field has the value that it has when it is left out. */
function isStandard(document: Json, path: Path, value: Json): boolean {
  const about = describeField(scenarioDocument, document, path);
  if (about?.standard === undefined) return false;
  return JSON.stringify(about.standard) === JSON.stringify(value);
}

/** The document with the SI figures at a place written with units, and without what the schema fills in by itself. */
export function written(document: Json, path: Path): Json {
  const value = valueAt(document, path);
  return value === undefined ? document : withValue(document, path, clean(document, path, value));
}

const same = (a: Json | undefined, b: Json | undefined): boolean => JSON.stringify(a) === JSON.stringify(b);

const named = (value: Json): string | undefined =>
  isObject(value) && typeof value.name === 'string' ? value.name : undefined;

/**
 * Takes a change of a read scenario (SI, standards filled in) over into the document that it was read from: what did not
 * change stays as it is written, figures keep their units, entries with names are told apart by these.
 * @param before the scenario as it was read, `after` the one that is wanted; the parts of both at `path`
 */
export function takenOver(document: Json, path: Path, before: Json | undefined, after: Json): Json {
  if (same(before, after)) return document;
  const here = valueAt(document, path);
  if (isList(here) && isList(before) && isList(after)) return listOver(document, path, before, after);
  if (isObject(here) && isObject(before) && isObject(after)) {
    const gone = Object.keys(before).filter((key) => after[key] === undefined);
    const left = Object.fromEntries(Object.entries(here).filter(([key]) => !gone.includes(key)));
    return Object.entries(after).reduce<Json>(
      (now, [key, value]) => (value === undefined ? now : takenOver(now, [...path, key], before[key], value)),
      withValue(document, path, left),
    );
  }
  return figureOver(document, path, after);
}

/** A figure in the unit that is written there; anything else as a new value. */
function figureOver(document: Json, path: Path, after: Json): Json {
  const here = valueAt(document, path);
  const { dimension } = describeField(scenarioDocument, document, path) ?? {};
  if (typeof after === 'number' && dimension !== undefined && readFigure(here, dimension) !== undefined) {
    const step = dimension === 'length' ? STEP : Math.abs(after) * 10 ** -DIGITS;
    return withValue(document, path, writeFigure(after, here, dimension, step));
  }
  return written(withValue(document, path, after), path);
}

function listOver(document: Json, path: Path, before: readonly Json[], after: readonly Json[]): Json {
  const here = valueAt(document, path);
  const items = isList(here) ? here : [];
  const byName = after.every((value) => named(value) !== undefined);
  if (!byName && after.length !== before.length) return figureOver(document, path, after);
  const places = after.map((value, i) =>
    byName ? before.findIndex((was) => named(was) === named(value)) : i,
  );
  // First the entries as they are written, in their new order; then what changed in each.
  const kept = after.map((value, i) => items[places[i] as number] ?? value);
  return after.reduce<Json>(
    (now, value, i) => {
      const was = before[places[i] as number];
      const at = [...path, i];
      return was === undefined ? written(now, at) : takenOver(now, at, was, value);
    },
    withValue(document, path, kept),
  );
}
