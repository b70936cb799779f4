import type { Path } from '../../shared/path.ts';
import type { Either } from '../../shared/schema/describe.ts';
import { isObject, type Json, valueAt } from '../documents/json.ts';
import { declined, type Edit, edited } from './edit.ts';
import { entryOf, titleOf, wordsOf } from './lists.ts';
import { proportionsOf } from './proportions.ts';
import { put } from './put.ts';
import { grown } from './sample.ts';

type Way = Either[number];

/** Whether a value belongs to a way: a key of its own, or a word that the way goes with ('planetary'). */
const belongs = (way: Way, key: string, value: Json | undefined): boolean =>
  Object.hasOwn(way, key) && value !== undefined && (typeof way[key] !== 'string' || way[key] === value);

/** Keys of a way that are its own: not the words that it goes with. */
export const keysOfWay = (way: Way): readonly string[] =>
  Object.keys(way).filter((key) => typeof way[key] !== 'string');

/** What a way is called: 'ratio', 'sun and ring'. */
export const titleOfWay = (way: Way): string => keysOfWay(way).map(wordsOf).join(' and ');

/** The ways that a value is said in, whole or in part; one of them in a sound document. */
export const waysTaken = (either: Either, value: Json | undefined): readonly Way[] =>
  either.filter((way) => isObject(value) && keysOfWay(way).some((key) => value[key] !== undefined));

/**
 * Says the object at `path` in one of its ways: what the others said goes, and figures of this way that are missing are
 * filled in with worked ones, as large as suits the vehicle.
 */
export function sayAs(document: Json, path: Path, either: Either, way: Way): Edit {
  const says = `give ${titleOfWay(way)} of ${titleOf(document, entryOf(path))}`;
  const was = valueAt(document, path);
  if (!isObject(was)) return declined(document, says, '', 'there is nothing here that could be given so');
  const others = either.filter((each) => each !== way);
  const kept = Object.entries(was).filter(
    ([key, value]) => Object.hasOwn(way, key) || !others.some((each) => belongs(each, key, value)),
  );
  const own = way as { readonly [key: string]: Json };
  const filled = Object.entries(own).filter(
    ([key, value]) => typeof value === 'string' || was[key] === undefined,
  );
  // The kind must stand there for its figures to be known.
  const bare = put(document, path, { ...Object.fromEntries(kept), ...Object.fromEntries(filled) });
  if (bare === undefined) return declined(document, says, '', 'there is nothing here that could be given so');
  const sized = filled.map(([key, value]) => [
    key,
    grown(bare, [...path, key], value, proportionsOf(document)),
  ]);
  const after = put(bare, path, { ...Object.fromEntries(kept), ...Object.fromEntries(sized) });
  return edited(document, after ?? document, says);
}
