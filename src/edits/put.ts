import type { Path } from '../../shared/path.ts';
import { isList, isObject, type Json, valueAt, withoutValue, withValue } from '../documents/json.ts';

/** Whether a value can be put at a path: all above it is there (objects may be missing), indices lie inside. */
function reaches(document: Json, path: Path): boolean {
  let value: Json | undefined = document;
  for (const step of path) {
    if (typeof step === 'number') {
      if (!isList(value) || !Number.isInteger(step) || step < 0 || step >= value.length) return false;
      value = value[step];
    } else {
      if (value !== undefined && !isObject(value)) return false;
      value = value !== undefined && Object.hasOwn(value, step) ? value[step] : undefined;
    }
  }
  return true;
}

/** The document with a value at a path; the same document when it stands there already; undefined when there is no way. */
export function put(document: Json, path: Path, value: Json): Json | undefined {
  if (path.length === 0 || !reaches(document, path)) return undefined;
  return valueAt(document, path) === value ? document : withValue(document, path, value);
}

/** The document without the key at a path; the same document when there is none; undefined when the path ends in no key. */
export function leaveOut(document: Json, path: Path): Json | undefined {
  if (typeof path.at(-1) !== 'string') return undefined;
  return valueAt(document, path) === undefined ? document : withoutValue(document, path);
}

/** The document with entries added at the end of a list; the list is made where it is absent. */
export function appended(document: Json, list: Path, entries: readonly Json[]): Json {
  if (entries.length === 0) return document;
  const was = valueAt(document, list);
  return withValue(document, list, [...(isList(was) ? was : []), ...entries]);
}

/** The document without the items of a list at these indices. */
export function withoutItems(document: Json, list: Path, indices: readonly number[]): Json {
  const was = valueAt(document, list);
  if (!isList(was) || indices.length === 0) return document;
  return withValue(
    document,
    list,
    was.filter((_, i) => !indices.includes(i)),
  );
}
