import type { z } from 'zod';
import type { Path } from '../path.ts';
import type { Dimension } from '../units.ts';
import type { Range } from './quantity.ts';

/** What the schema says about one field of a document. */
export interface FieldAbout {
  /** Title of the kind, for an entry that has one. */
  readonly title?: string;
  /** What it is, one or two sentences. */
  readonly description?: string;
  /** SI unit; '1' for counts and ratios. */
  readonly unit?: string;
  /** For figures that may be written with a unit. */
  readonly dimension?: Dimension;
  /** Limits in SI, for figures; empty when there are none. */
  readonly range?: Range;
  /** The values that may stand here, where they can be listed: counts of wheels, names of kinds. */
  readonly choices?: readonly (string | number | boolean)[];
  /** Value when it is left out, in SI. */
  readonly standard?: unknown;
  readonly optional: boolean;
  /** What JSON value it takes: for the choice of an input. */
  readonly takes: 'figure' | 'number' | 'text' | 'truth' | 'list' | 'object' | 'choice';
}

/** The parts of a zod definition that are read here; zod publishes them for libraries as `_zod.def`. */
interface Definition {
  readonly type: string;
  readonly innerType?: z.ZodType;
  readonly in?: z.ZodType;
  readonly shape?: Readonly<Record<string, z.ZodType>>;
  readonly element?: z.ZodType;
  /** Schemas of a list of fixed length, item by item. */
  readonly items?: readonly z.ZodType[];
  readonly options?: readonly z.ZodType[];
  readonly discriminator?: string;
  readonly values?: readonly (string | number | boolean)[];
  readonly defaultValue?: unknown;
}

const definition = (schema: z.ZodType): Definition => schema._zod.def as unknown as Definition;

/** Ways to say the same thing, of which exactly one is given: the keys of each with figures that go together, SI. */
export type Either = readonly Readonly<Record<string, unknown>>[];

type Meta = {
  eitherOf?: readonly Either[];
  description?: string;
  title?: string;
  unit?: string;
  dimension?: Dimension;
} & Range;
const metaOf = (schema: z.ZodType): Meta => (schema.meta() ?? {}) as Meta;

const wrappers = new Set(['optional', 'default', 'prefault', 'nullable', 'readonly', 'nonoptional', 'catch']);

/** The schema below `optional` and `default`. A figure stays whole: its meta says what it is. */
export function unwrapped(schema: z.ZodType): z.ZodType {
  const def = definition(schema);
  return wrappers.has(def.type) && def.innerType !== undefined ? unwrapped(def.innerType) : schema;
}

/** True for a physical figure (see `quantity`). */
export const isFigure = (schema: z.ZodType): boolean => metaOf(unwrapped(schema)).dimension !== undefined;

/** Options of a union below wrappers; the schema itself when it is none. */
export function optionsOf(schema: z.ZodType): readonly z.ZodType[] {
  const inner = unwrapped(schema);
  return isFigure(inner) ? [inner] : (definition(inner).options ?? [inner]);
}

/** Names of the kinds that a union tells apart, and the field that tells; undefined for any other schema. */
export function kindsOf(
  schema: z.ZodType,
): { readonly field: string; readonly names: readonly string[] } | undefined {
  const field = definition(unwrapped(schema)).discriminator;
  if (field === undefined) return undefined;
  const names = optionsOf(schema).flatMap((option) => literalsOf(shapeOf(option)?.[field]));
  return { field, names: names.map(String) };
}

function literalsOf(schema: z.ZodType | undefined): readonly (string | number | boolean)[] {
  return schema === undefined ? [] : (definition(unwrapped(schema)).values ?? []);
}

/** Keys and schemas of an object; undefined for anything else. */
export function shapeOf(schema: z.ZodType): Readonly<Record<string, z.ZodType>> | undefined {
  return definition(unwrapped(schema)).shape;
}

function isObject(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** The option of a union that the value is meant as: by its kind, else by the keys that it shares with it. */
export function optionFor(schema: z.ZodType, value: unknown): z.ZodType | undefined {
  const options = optionsOf(schema);
  if (options.length === 1) return options[0];
  const field = definition(unwrapped(schema)).discriminator;
  if (field !== undefined) {
    const kind = isObject(value) ? value[field] : undefined;
    return options.find((option) => literalsOf(shapeOf(option)?.[field]).some((literal) => literal === kind));
  }
  if (!isObject(value))
    return options.find(
      (option) => definition(option).type === (Array.isArray(value) ? 'array' : typeof value),
    );
  const shared = (option: z.ZodType) =>
    Object.keys(shapeOf(option) ?? {}).filter((key) => Object.hasOwn(value, key)).length;
  const objects = options.filter((option) => shapeOf(option) !== undefined);
  return objects.reduce<z.ZodType | undefined>(
    (best, o) => (best === undefined || shared(o) > shared(best) ? o : best),
    undefined,
  );
}

/** The member of `value` at `step`, own properties only. */
export function childOf(value: unknown, step: string | number): unknown {
  if (Array.isArray(value)) return typeof step === 'number' ? value[step] : undefined;
  return isObject(value) && Object.hasOwn(value, String(step)) ? value[String(step)] : undefined;
}

/**
 * The schema of the place `path` in this document (the document decides which option of a union applies); undefined
 * when the schema knows no such place.
 */
export function schemaAt(schema: z.ZodType, document: unknown, path: Path): z.ZodType | undefined {
  let here: z.ZodType | undefined = schema;
  let value = document;
  for (const step of path) {
    const option: z.ZodType | undefined = here === undefined ? undefined : optionFor(here, value);
    if (option === undefined) return undefined;
    const shape = shapeOf(option);
    if (typeof step === 'number') here = definition(option).element ?? definition(option).items?.[step];
    else here = shape !== undefined && Object.hasOwn(shape, step) ? shape[step] : undefined;
    value = childOf(value, step);
  }
  return here;
}

/** What must be said in one of several ways in the object at `path`; empty where nothing is. */
export function eitherAt(schema: z.ZodType, document: unknown, path: Path): readonly Either[] {
  const here = schemaAt(schema, document, path);
  const option = here === undefined ? undefined : optionFor(here, path.reduce<unknown>(childOf, document));
  return option === undefined ? [] : (described(option).eitherOf ?? []);
}

/** Keys that may stand in the object at `path`; empty when no object belongs there. */
export function keysAt(schema: z.ZodType, document: unknown, path: Path): readonly string[] {
  const here = schemaAt(schema, document, path);
  const option = here === undefined ? undefined : optionFor(here, path.reduce<unknown>(childOf, document));
  return Object.keys((option === undefined ? undefined : shapeOf(option)) ?? {});
}

function takes(schema: z.ZodType, choices: FieldAbout['choices']): FieldAbout['takes'] {
  if (isFigure(schema)) return 'figure';
  if (choices !== undefined) return 'choice';
  const type = definition(unwrapped(optionsOf(schema)[0] ?? schema)).type;
  const names: Readonly<Record<string, FieldAbout['takes']>> = {
    number: 'number',
    int: 'number',
    string: 'text',
    boolean: 'truth',
    array: 'list',
  };
  return names[type] ?? 'object';
}

/** Values of a literal, or of a union of literals only. */
function choicesOf(schema: z.ZodType): FieldAbout['choices'] {
  const kinds = kindsOf(schema);
  if (kinds !== undefined) return kinds.names;
  const values = optionsOf(schema).map(literalsOf);
  return values.length > 0 && values.every((list) => list.length > 0) ? values.flat() : undefined;
}

function standardOf(schema: z.ZodType): { readonly standard?: unknown; readonly optional: boolean } {
  const def = definition(schema);
  if (def.type === 'default' || def.type === 'prefault')
    return { standard: def.defaultValue, optional: true };
  if (def.type === 'optional')
    return { ...(def.innerType === undefined ? {} : standardOf(def.innerType)), optional: true };
  return { optional: false };
}

function described(schema: z.ZodType): Meta {
  const own = metaOf(schema);
  const { innerType, type } = definition(schema);
  return wrappers.has(type) && innerType !== undefined ? { ...described(innerType), ...own } : own;
}

/** The figure among the options of a union (a torque, or how it was measured), where the document has a figure there. */
function figureAmong(schema: z.ZodType, value: unknown): z.ZodType | undefined {
  if (isFigure(schema) || (typeof value !== 'number' && typeof value !== 'string')) return undefined;
  return optionsOf(schema).find(isFigure);
}

/**
 * What the schema says about the field at `path` of this document: description, unit, dimension, limits, choices,
 * standard value. The field itself may be absent from the document; its parent's kind must be there.
 * @returns undefined when the schema knows no such place
 */
export function describeField(schema: z.ZodType, document: unknown, path: Path): FieldAbout | undefined {
  const here = schemaAt(schema, document, path);
  if (here === undefined) return undefined;
  const meant = optionFor(here, path.reduce<unknown>(childOf, document));
  const figure = figureAmong(here, path.reduce<unknown>(childOf, document));
  const { unit, dimension, above, least, below, most } = described(figure ?? here);
  const { description } = described(here);
  const title = described(here).title ?? (meant === undefined ? undefined : described(meant).title);
  const choices = choicesOf(here);
  const range = Object.fromEntries(
    Object.entries({ above, least, below, most }).filter(([, limit]) => limit !== undefined),
  );
  return {
    ...(title === undefined ? {} : { title }),
    ...(description === undefined ? {} : { description }),
    ...(unit === undefined ? {} : { unit }),
    ...(dimension === undefined ? {} : { dimension, range }),
    ...(choices === undefined ? {} : { choices }),
    ...standardOf(here),
    takes: figure === undefined ? takes(here, choices) : 'figure',
  };
}
