import type { z } from 'zod';
import type { Path } from '../../shared/path.ts';
import {
  describeField,
  isFigure,
  kindsOf,
  optionFor,
  optionsOf,
  schemaAt,
  shapeOf,
  unwrapped,
} from '../../shared/schema/describe.ts';
import { shownUnit } from '../../shared/units.ts';
import { scenarioDocument } from '../../sim/scenario/schema.ts';
import { isList, isObject, type Json, valueAt } from '../documents/json.ts';
import { labelOf } from '../panels/fields/layout.ts';

/** One of several ways in which a place of the document may be filled. */
export interface Way {
  /** For people: 'member', 'from and to', 'list'. */
  readonly title: string;
  readonly schema: z.ZodType;
}

/** The part of a zod definition that is read here. */
const definition = (schema: z.ZodType) =>
  schema._zod.def as unknown as {
    readonly type: string;
    readonly element?: z.ZodType;
    readonly values?: readonly (string | number | boolean)[];
    readonly entries?: Readonly<Record<string, string>>;
  };

/** What a way is called: its keys, its value, or what it is. */
function titleOfWay(schema: z.ZodType): string {
  const inner = unwrapped(schema);
  const def = definition(inner);
  if (def.type === 'lazy') return 'split';
  const keys = Object.entries(shapeOf(inner) ?? {});
  const needed = keys.filter(
    ([, field]) => definition(field).type !== 'optional' && definition(field).type !== 'default',
  );
  if (keys.length > 0)
    return (needed.length === 0 ? keys : needed)
      .slice(0, 2)
      .map(([key]) => labelOf(key))
      .join(' and ');
  if (def.values !== undefined) return def.values.join(' or ');
  if (def.type === 'array') return 'chosen ones';
  return def.type === 'string' ? 'by name' : 'set';
}

/** Flat list of the options of a union, unions inside of it taken apart. */
function flat(schema: z.ZodType): readonly z.ZodType[] {
  const options = optionsOf(schema);
  return options.length === 1 ? options : options.flatMap(flat);
}

/** The ways to fill a place that has several; undefined where there is one, or a list of values or kinds. */
export function waysOf(schema: z.ZodType): readonly Way[] | undefined {
  if (isFigure(schema) || kindsOf(schema) !== undefined) return undefined;
  const options = flat(schema);
  if (options.length < 2) return undefined;
  if (options.every((option) => definition(unwrapped(option)).values !== undefined)) return undefined;
  return options.map((option) => ({ title: titleOfWay(option), schema: option }));
}

/** Which of the ways a value is meant as; −1 for none. */
export function wayOf(ways: readonly Way[], schema: z.ZodType, value: Json | undefined): number {
  const exact = ways.findIndex((way) => way.schema.safeParse(value).success);
  if (exact !== -1) return exact;
  const meant = optionFor(schema, value);
  return ways.findIndex((way) => way.schema === meant);
}

/** Names that a place may refer to. */
export type NamesFor = (path: Path) => readonly string[] | undefined;

/** A figure to begin with: within its limits, in the unit that people use. */
function figureToBegin(schema: z.ZodType): Json {
  const about = describeField(schema, undefined, []);
  const { dimension, range } = about ?? {};
  if (dimension === undefined) return 0;
  const least = range?.least ?? range?.above ?? 0;
  const most = range?.most ?? range?.below ?? Number.POSITIVE_INFINITY;
  const excluded = range?.above !== undefined && range.above >= 0;
  const unit = shownUnit(dimension, 0);
  const value = excluded || least > 0 ? Math.max(1, least) : Math.min(0, most);
  return unit === '1' ? value : `${value} ${unit}`;
}

/** The least that a place can hold to be of this schema: what is needed, and no more. */
export function beginning(schema: z.ZodType, path: Path, names: NamesFor): Json {
  const inner = unwrapped(schema);
  if (isFigure(inner)) return figureToBegin(inner);
  const def = definition(inner);
  const shape = shapeOf(inner);
  if (shape !== undefined) {
    const needed = Object.entries(shape).filter(
      ([, field]) => !describeField(field, undefined, [])?.optional,
    );
    return Object.fromEntries(needed.map(([key, field]) => [key, beginning(field, [...path, key], names)]));
  }
  if (def.type === 'array') {
    const item = def.element;
    if (item === undefined) return [];
    const first = beginning(item, [...path, 0], names);
    // Tables need a second line.
    return inner.safeParse([first]).success ? [first] : [first, first];
  }
  const options = optionsOf(inner);
  if (options.length > 1 && options[0] !== undefined) return beginning(options[0], path, names);
  if (def.values !== undefined) return def.values[0] ?? '';
  if (def.entries !== undefined) return Object.values(def.entries)[0] ?? '';
  if (def.type === 'boolean') return false;
  if (def.type === 'number' || def.type === 'int') return 1;
  return names(path)?.[0] ?? 'new';
}

/** Schema of a place in a document. */
export const schemaOf = (document: Json, path: Path): z.ZodType | undefined =>
  schemaAt(scenarioDocument, document, path);

/** Schema of the items of the list at a place. */
export function itemOf(document: Json, path: Path): z.ZodType | undefined {
  const here = schemaOf(document, path);
  const option = here === undefined ? undefined : optionFor(here, valueAt(document, path));
  return option === undefined ? undefined : definition(unwrapped(option)).element;
}

/** A new item for the end of a list: beside the last one where that is a point, else what is least. */
export function nextItem(document: Json, path: Path, names: NamesFor): Json | undefined {
  const item = itemOf(document, path);
  const list = valueAt(document, path);
  if (item === undefined) return undefined;
  const last = isList(list) ? list.at(-1) : undefined;
  return isObject(last) || typeof last === 'number' ? last : beginning(item, [...path, 0], names);
}
