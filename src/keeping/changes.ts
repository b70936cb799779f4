import type { Path } from '../../shared/path.ts';
import { isList, isObject, type Json } from '../documents/json.ts';

/**
 * What turns one document into another, as little of it as possible: a step of the history is kept as its changes forth
 * and back, some hundred bytes, and not as two whole documents.
 */
export type Change =
  | readonly ['put', Path, Json]
  | readonly ['drop', Path]
  /** In the list at a path: where, how many entries go, and which come. */
  | readonly ['splice', Path, number, number, readonly Json[]]
  /** Keys of the object at a path, in their order: they are part of what the user wrote. */
  | readonly ['order', Path, readonly string[]];

/** Entries that two lists share at their beginning and at their end. */
function sharedEnds(before: readonly Json[], after: readonly Json[]): { front: number; back: number } {
  const most = Math.min(before.length, after.length);
  let front = 0;
  while (front < most && before[front] === after[front]) front += 1;
  let back = 0;
  while (back < most - front && before[before.length - 1 - back] === after[after.length - 1 - back])
    back += 1;
  return { front, back };
}

function listChanges(before: readonly Json[], after: readonly Json[], path: Path): readonly Change[] {
  const { front, back } = sharedEnds(before, after);
  if (before.length !== after.length) {
    const gone = before.length - front - back;
    return [['splice', path, front, gone, after.slice(front, after.length - back)]];
  }
  return before
    .slice(front, before.length - back)
    .flatMap((value, i) => changesBetween(value, after[front + i] as Json, [...path, front + i]));
}

function objectChanges(
  before: { readonly [key: string]: Json },
  after: { readonly [key: string]: Json },
  path: Path,
): readonly Change[] {
  const old = Object.keys(before);
  const now = Object.keys(after);
  const gone = old.filter((key) => !Object.hasOwn(after, key));
  const come = now.filter((key) => !Object.hasOwn(before, key));
  const order = [...old.filter((key) => Object.hasOwn(after, key)), ...come];
  return [
    ...gone.map((key) => ['drop', [...path, key]] as const),
    ...now.flatMap((key) =>
      Object.hasOwn(before, key)
        ? changesBetween(before[key] as Json, after[key] as Json, [...path, key])
        : [['put', [...path, key], after[key] as Json] as const],
    ),
    ...(order.every((key, i) => key === now[i]) ? [] : [['order', path, now] as const]),
  ];
}

/**
 * The changes that make `after` out of `before`. What both share as the same object is not looked into.
 * @param path where both stand
 */
export function changesBetween(before: Json, after: Json, path: Path = []): readonly Change[] {
  if (before === after) return [];
  if (isList(before) && isList(after)) return listChanges(before, after, path);
  if (isObject(before) && isObject(after)) return objectChanges(before, after, path);
  return [['put', path, after]];
}

const lost = (): never => {
  throw new RangeError('a step of the history does not fit the document');
};

/** The document with what stands at a path made anew by `make`; only what lies on the way is copied. */
function remade(document: Json, path: Path, make: (value: Json) => Json): Json {
  const [step, ...rest] = path;
  if (step === undefined) return make(document);
  if (typeof step === 'number') {
    if (!isList(document) || step >= document.length) return lost();
    const items = document.slice();
    items[step] = remade(items[step] as Json, rest, make);
    return items;
  }
  if (!isObject(document) || !Object.hasOwn(document, step)) return lost();
  // A computed key makes an own property even of '__proto__', and one that is there already keeps its place.
  return { ...document, [step]: remade(document[step] as Json, rest, make) };
}

function put(owner: Json, step: string | number, value: Json): Json {
  if (isList(owner) && typeof step === 'number' && step < owner.length) return owner.with(step, value);
  if (!isObject(owner) || typeof step !== 'string') return lost();
  if (Object.hasOwn(owner, step)) return remade(owner, [step], () => value);
  return { ...owner, [step]: value };
}

function changed(document: Json, change: Change): Json {
  const [kind, path] = change;
  const last = path.at(-1);
  const above = path.slice(0, -1);
  if (kind === 'put') {
    return last === undefined ? change[2] : remade(document, above, (owner) => put(owner, last, change[2]));
  }
  if (kind === 'drop') {
    return remade(document, above, (owner) =>
      isObject(owner) ? Object.fromEntries(Object.entries(owner).filter(([key]) => key !== last)) : lost(),
    );
  }
  if (kind === 'splice') {
    const [, , at, gone, come] = change;
    return remade(document, path, (list) =>
      isList(list) ? [...list.slice(0, at), ...come, ...list.slice(at + gone)] : lost(),
    );
  }
  return remade(document, path, (owner) => {
    const keys = change[2];
    if (!isObject(owner) || !keys.every((key) => Object.hasOwn(owner, key))) return lost();
    return Object.fromEntries(keys.map((key) => [key, owner[key] as Json]));
  });
}

/** The document after changes. @throws RangeError when they belong to another document */
export function withChanges(document: Json, changes: readonly Change[]): Json {
  return changes.reduce(changed, document);
}

/** `value`, with everything in it that equals its like in `like` replaced by that: documents that are read share again. */
export function sharing(like: Json | undefined, value: Json): Json {
  if (like === value || like === undefined) return value;
  if (isList(like) && isList(value)) {
    const items = value.map((item, i) => sharing(like[i], item));
    return items.length === like.length && items.every((item, i) => item === like[i]) ? like : items;
  }
  if (isObject(like) && isObject(value)) {
    const keys = Object.keys(value);
    const old = Object.keys(like);
    const entries = keys.map((key) => [key, sharing(like[key], value[key] as Json)] as const);
    const same =
      old.length === keys.length && entries.every(([key, item], i) => key === old[i] && item === like[key]);
    return same ? like : Object.fromEntries(entries);
  }
  return value;
}
