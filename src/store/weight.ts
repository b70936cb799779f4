import { isList, isObject, type Json } from '../documents/json.ts';

/** Memory of one place in an object or a list, and of what holds the places, bytes: 64-bit engines, from memory. */
const PLACE = 16;
const HOLDER = 64;

function sizeOf(value: Json | undefined): number {
  if (typeof value === 'string') return HOLDER + 2 * value.length;
  if (!isList(value) && !isObject(value)) return 0;
  let size = HOLDER;
  for (const each of Object.values(value)) size += PLACE + sizeOf(each);
  return size;
}

/** Bytes, about, that `after` holds and `before` does not: documents share what did not change. */
export function weightOf(before: Json | undefined, after: Json | undefined): number {
  if (before === after) return 0;
  if (!(isList(before) && isList(after)) && !(isObject(before) && isObject(after))) return sizeOf(after);
  const old = before as { readonly [key: string]: Json };
  let size = HOLDER;
  // An entry that has only moved on in its list is still shared.
  const kept =
    isList(before) && before.length !== (after as readonly Json[]).length ? new Set(before) : undefined;
  for (const [key, value] of Object.entries(after)) {
    size += PLACE + (kept?.has(value) === true ? 0 : weightOf(old[key], value));
  }
  return size;
}
