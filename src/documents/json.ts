import { type Path, pathText } from '../../shared/path.ts';

/** A value as JSON has it. */
export type Json = null | boolean | number | string | readonly Json[] | { readonly [key: string]: Json };

/** A list, told apart from an object; `Array.isArray` alone loses the read-only type. */
export function isList(value: Json | undefined): value is readonly Json[] {
  return Array.isArray(value);
}

/** An object with keys, neither a list nor null. */
export function isObject(value: Json | undefined): value is { readonly [key: string]: Json } {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** The value at a path, or undefined when the document does not reach that far. */
export function valueAt(document: Json | undefined, path: Path): Json | undefined {
  let value: Json | undefined = document;
  for (const step of path) {
    if (typeof step === 'number') value = isList(value) ? value[step] : undefined;
    else value = isObject(value) && Object.hasOwn(value, step) ? value[step] : undefined;
  }
  return value;
}

/**
 * The document with another value at a path. Only what lies on the way is copied, everything else is shared.
 * @throws RangeError when the path leads through something that is neither an object nor a list
 */
export function withValue(document: Json | undefined, path: Path, value: Json): Json {
  const [step, ...rest] = path;
  if (step === undefined) return value;
  if (typeof step === 'number' && isList(document)) {
    return document.map((item, index) => (index === step ? withValue(item, rest, value) : item));
  }
  if (typeof step === 'string' && (isObject(document) || document === undefined)) {
    return { ...document, [step]: withValue(document?.[step], rest, value) };
  }
  throw new RangeError(`no way to ${pathText(path)} in this document`);
}

/**
 * The document without the value at a path; the key of an object disappears.
 * @throws RangeError when the path does not end in a key of an object
 */
export function withoutValue(document: Json, path: Path): Json {
  const above = path.slice(0, -1);
  const key = path.at(-1);
  const owner = valueAt(document, above);
  if (typeof key !== 'string' || !isObject(owner)) throw new RangeError(`cannot leave out ${pathText(path)}`);
  const { [key]: _gone, ...rest } = owner;
  return withValue(document, above, rest);
}
