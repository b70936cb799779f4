import { didYouMean } from '../../shared/near.ts';
import { type Path, pathText, readPath, type Step } from '../../shared/path.ts';
import type { Checked, Problem } from '../../shared/problem.ts';
import { childOf, keysAt, schemaAt, unwrapped } from '../../shared/schema/describe.ts';
import { jsonKind } from '../../shared/schema/quantity.ts';
import { scenarioDocument } from './schema.ts';

type Refused = { readonly ok: false; readonly problems: readonly Problem[] };

function refused(path: string, message: string, hint?: string): Refused {
  return {
    ok: false,
    problems: [{ path, message, severity: 'error', ...(hint === undefined ? {} : { hint }) }],
  };
}

const nameOf = (entry: unknown, field: string) => {
  const name = childOf(entry, field);
  return typeof name === 'string' ? name : undefined;
};

/** Index of the entry with this name; where entries have no names, of the only one of this kind. */
function indexOf(list: readonly unknown[], name: string): number {
  const named = list.findIndex((entry) => nameOf(entry, 'name') === name);
  if (named >= 0) return named;
  const ofKind = list.flatMap((entry, i) => (nameOf(entry, 'kind') === name ? [i] : []));
  return ofKind.length === 1 ? (ofKind[0] ?? -1) : -1;
}

function entryOf(value: unknown, step: Step, at: string): Checked<number> {
  const list = Array.isArray(value) ? value : undefined;
  if (list === undefined)
    return refused(at, value === undefined ? 'has no entries' : `is ${jsonKind(value)}, not a list`);
  if ('index' in step) {
    if (step.index < list.length) return { ok: true, value: step.index, problems: [] };
    const has = list.length === 0 ? 'has no entries' : `has entries [0] to [${list.length - 1}] only`;
    return refused(at, `${has}, so there is no [${step.index}]`);
  }
  const name = 'name' in step ? step.name : step.key;
  const index = indexOf(list, name);
  if (index >= 0) return { ok: true, value: index, problems: [] };
  const twice = list.filter((entry) => nameOf(entry, 'kind') === name).length;
  if (twice > 1)
    return refused(
      at,
      `has ${twice} entries of the kind '${name}'`,
      'choose one by its number: [0] is the first',
    );
  const known = list.flatMap((entry) => nameOf(entry, 'name') ?? nameOf(entry, 'kind') ?? []);
  const hint =
    didYouMean(name, known) ?? (known.length === 0 ? undefined : `its entries: ${known.join(', ')}`);
  return refused(at, `has no entry called '${name}'`, hint);
}

function keyOf(document: unknown, path: Path, value: unknown, key: string): Checked<string> {
  const at = pathText(path);
  if (Array.isArray(value)) return refused(at, 'is a list', `choose an entry: ${at}[0]`);
  if (value !== undefined && (typeof value !== 'object' || value === null)) {
    return refused(at, `is ${jsonKind(value)}, so it has no part '${key}'`);
  }
  const own = Object.keys(value ?? {});
  const known = keysAt(scenarioDocument, document, path);
  if (own.includes(key) || known.includes(key)) return { ok: true, value: key, problems: [] };
  const candidates = [...new Set([...known, ...own])];
  const hint =
    didYouMean(key, candidates) ??
    (candidates.length === 0 ? undefined : `known here: ${candidates.join(', ')}`);
  return refused(pathText([...path, key]), 'there is no such field', hint);
}

/** The place that a written path means in this document: names become indices. */
function resolve(document: unknown, steps: readonly Step[]): Checked<Path> {
  const path: (string | number)[] = [];
  let value = document;
  for (const step of steps) {
    const found: Checked<string | number> =
      'key' in step ? keyOf(document, path, value, step.key) : entryOf(value, step, pathText(path));
    if (!found.ok) return found;
    path.push(found.value);
    value = childOf(value, found.value);
  }
  return { ok: true, value: path, problems: [] };
}

/**
 * The place that a path means in a document: 'vehicle.wheels[2].radius', 'vehicle.wheels[front].radius',
 * 'ground[step].height' (the only step). A field may be absent where the schema knows it.
 * @returns keys and indices from the root, or why there is no such place, with the near one as a hint
 */
export function findPath(document: unknown, path: string): Checked<Path> {
  const written = path.trim();
  const { steps, end } = readPath(written);
  if (steps.length === 0 || end < written.length) {
    return refused('', `'${written.slice(0, 80)}' is no path`, 'write it like vehicle.wheels[front].radius');
  }
  return resolve(document, steps);
}

/**
 * The value at a path of a document as it was written; undefined for a known field that is absent.
 * @returns the value, or why there is no such place
 */
export function getPath(document: unknown, path: string): Checked<unknown> {
  const place = findPath(document, path);
  return place.ok ? { ok: true, value: place.value.reduce<unknown>(childOf, document), problems: [] } : place;
}

/** A copy of `value` in which the place holds `put`; objects on the way are made where they are absent. */
function replaced(value: unknown, path: Path, put: unknown): unknown {
  const [step, ...rest] = path;
  if (step === undefined) return put;
  const inner = replaced(childOf(value, step), rest, put);
  if (Array.isArray(value)) return value.map((entry, i) => (i === step ? inner : entry));
  const object = (value ?? {}) as Record<string, unknown>;
  if (inner !== undefined) return { ...object, [step]: inner };
  const { [step]: _left, ...others } = object;
  return others;
}

/**
 * A copy of the document with a value put at a place; undefined takes a field out, so that its standard value holds.
 * The document itself is not changed, and parts beside the way are shared. The value is not checked: reading does that.
 */
export function putAt(document: unknown, path: Path, value: unknown): unknown {
  return replaced(document, path, value);
}

/**
 * As `putAt`, for a written path.
 * @returns the new document, or why there is no such place
 */
export function setPath(document: unknown, path: string, value: unknown): Checked<unknown> {
  const place = findPath(document, path);
  return place.ok ? { ok: true, value: putAt(document, place.value, value), problems: [] } : place;
}

/** A value as typed: JSON where it reads as JSON, else the text itself ('60 mm'); always text for a field of text. */
function typedValue(typed: string, document: unknown, path: Path): unknown {
  const schema = schemaAt(scenarioDocument, document, path);
  const takesText = schema !== undefined && unwrapped(schema)._zod.def.type === 'string';
  if (takesText && !typed.startsWith('"')) return typed;
  try {
    return JSON.parse(typed) as unknown;
  } catch {
    return typed;
  }
}

/**
 * A copy of the document changed by one setting, 'vehicle.wheels[front].radius=60 mm'. The value is JSON where it
 * reads as JSON (4, true, ["front"], "45 mm"), and text otherwise.
 * @returns the new document, or what is wrong with the path; the value is checked by reading the document
 */
export function applySetting(document: unknown, setting: string): Checked<unknown> {
  const written = setting.trim();
  const { steps, end } = readPath(written);
  const rest = /^\s*=(.*)$/s.exec(written.slice(end));
  if (steps.length === 0 || rest === null) {
    return refused(
      '',
      `'${written.slice(0, 80)}' is no setting`,
      'write it like vehicle.wheels[front].radius=60 mm',
    );
  }
  const place = resolve(document, steps);
  if (!place.ok) return place;
  const typed = rest[1]?.trim() ?? '';
  if (typed === '') return refused(pathText(place.value), 'is set to nothing', 'write a value behind the =');
  return {
    ok: true,
    value: putAt(document, place.value, typedValue(typed, document, place.value)),
    problems: [],
  };
}
