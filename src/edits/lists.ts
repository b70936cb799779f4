import type { Path } from '../../shared/path.ts';
import { isList, isObject, type Json, valueAt } from '../documents/json.ts';

/** What a point of an entry does when another one at the same place moves. */
export type Tie =
  /** Moves others and is moved: pins of members, hubs. */
  | 'structure'
  /** Is moved by others only: mass items, ends of elements, pulls. */
  | 'rider'
  /** Neither: drawn lines. */
  | 'line';

/** One of the lists of a document whose items are entries: things that can be selected. */
export interface EntryList {
  readonly path: readonly string[];
  /** What one entry is called. */
  readonly noun: string;
  readonly tie: Tie;
  /** Key of what an entry is called; most have a name. */
  readonly names?: 'name' | 'title';
}

/** All lists of entries. A new list is one line here. */
export const entryLists: readonly EntryList[] = [
  { path: ['vehicle', 'members'], noun: 'member', tie: 'structure', names: 'name' },
  { path: ['vehicle', 'elements'], noun: 'element', tie: 'rider', names: 'name' },
  { path: ['vehicle', 'wheels'], noun: 'wheel', tie: 'structure', names: 'name' },
  { path: ['vehicle', 'masses'], noun: 'mass', tie: 'rider', names: 'name' },
  { path: ['vehicle', 'bodywork', 'outlines'], noun: 'outline', tie: 'line' },
  { path: ['vehicle', 'driveline', 'parts'], noun: 'drive line part', tie: 'rider', names: 'name' },
  { path: ['vehicle', 'driveline', 'controllers'], noun: 'controller', tie: 'rider', names: 'name' },
  { path: ['vehicle', 'winches'], noun: 'winch', tie: 'rider', names: 'name' },
  { path: ['vehicle', 'steering'], noun: 'steering', tie: 'rider', names: 'name' },
  { path: ['vehicle', 'strength', 'parts'], noun: 'strength figures', tie: 'rider' },
  { path: ['ground'], noun: 'ground', tie: 'line', names: 'title' },
  { path: ['criteria'], noun: 'criterion', tie: 'line' },
  { path: ['run', 'pulls'], noun: 'pull', tie: 'rider', names: 'name' },
];

const begins = (path: Path, start: Path): boolean => start.every((step, i) => path[i] === step);

/** The list that a place of the document lies in; undefined when it lies in none. */
export function listOf(path: Path): EntryList | undefined {
  return entryLists.find((list) => begins(path, list.path) && path.length >= list.path.length);
}

/**
 * The entry that a place belongs to: an item of a list, else the object or list just above a point (the belly line, the
 * reference point).
 */
export function entryOf(path: Path): Path {
  const list = listOf(path);
  if (list !== undefined && path.length > list.path.length) return path.slice(0, list.path.length + 1);
  return typeof path.at(-1) === 'number' ? path.slice(0, -1) : path;
}

/** Entries of a list with their indices; empty when there is no such list. */
export function entriesAt(
  document: Json,
  path: Path,
): readonly { readonly path: Path; readonly value: { readonly [key: string]: Json } }[] {
  const list = valueAt(document, path);
  if (!isList(list)) return [];
  return list.flatMap((value, i) => (isObject(value) ? [{ path: [...path, i], value }] : []));
}

/** Name of the entry at a path; undefined when it has none. */
export function nameAt(document: Json, entry: Path): string | undefined {
  const key = listOf(entry)?.names ?? 'name';
  const name = valueAt(document, [...entry, key]);
  return typeof name === 'string' && name !== '' ? name : undefined;
}

/** 'torquePerWheel' → 'torque per wheel'. */
export const wordsOf = (key: string): string => key.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);

/** What an entry is called in the names of edits: 'rear-arm', 'wheel front', 'outline 2', 'belly'. */
export function titleOf(document: Json, entry: Path): string {
  const list = listOf(entry);
  const name = nameAt(document, entry);
  const last = entry.at(-1);
  if (list === undefined) return typeof last === 'string' ? wordsOf(last) : '';
  const noun = list.noun === 'member' || list.noun === 'element' ? '' : `${list.noun} `;
  if (name !== undefined) return `${noun}${name}`;
  return `${list.noun} ${typeof last === 'number' ? last + 1 : ''}`.trim();
}
