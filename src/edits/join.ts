import type { Path } from '../../shared/path.ts';
import { isList, isObject, type Json, valueAt, withoutValue, withValue } from '../documents/json.ts';
import { entriesAt } from './lists.ts';

/** A new wheel joins the root of a sharing tree where every wheel is driven: the tree has to name it. */
export function joinedTree(document: Json, entry: Json): Json {
  const path: Path = ['vehicle', 'drive', 'sharing'];
  const driven = valueAt(document, ['vehicle', 'drive', 'driven']);
  const tree = valueAt(document, path);
  if ((driven !== undefined && driven !== 'all') || !isObject(tree) || !isObject(entry)) return document;
  const [branch] = Object.entries(tree);
  if (branch === undefined || !isList(branch[1]) || typeof entry.name !== 'string') return document;
  return withValue(document, [...path, branch[0]], [...branch[1], entry.name]);
}

/**
 * A new spring on a member's own travel joins those whose preload is found from the ride height, where that is asked for;
 * it then has no preload of its own.
 */
export function joinedRideHeight(document: Json, entry: Json): Json {
  const path: Path = ['vehicle', 'rideHeight', 'setBy'];
  const names = valueAt(document, path);
  if (!isList(names) || !isObject(entry) || typeof entry.name !== 'string') return document;
  const springs = entry.preload !== undefined && isObject(entry.on) && entry.on.member !== undefined;
  const at = entriesAt(document, ['vehicle', 'elements']).find(({ value }) => value.name === entry.name);
  if (!springs || at === undefined) return document;
  return withoutValue(withValue(document, path, [...names, entry.name]), [...at.path, 'preload']);
}
