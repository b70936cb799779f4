import type { Path } from '../../shared/path.ts';
import { isList, isObject, type Json, withValue } from '../documents/json.ts';

/** What a name is the name of. Members and wheels share their names; elements and drive line parts have their own. */
export type Named = 'member' | 'wheel' | 'element' | 'part';

/** A field that holds the name of another entry, or a list of such names. */
export interface ReferenceField {
  readonly key: string;
  readonly to: Named;
  /** Where it may stand: the first keys of its path. */
  readonly within: readonly string[];
  /** Whether the name stands alone, in a list, or either way. */
  readonly stands: 'alone' | 'listed' | 'either';
  /** What goes when the name is gone: this name alone, the object that holds it, or the whole entry. */
  readonly gone: 'name' | 'holder' | 'entry';
  /** What goes with the last name of a list: nothing (it stays empty), the field, or the object that holds it. */
  readonly empty?: 'field' | 'holder';
  /** Whether the name of a copy joins the list beside that of the original. */
  readonly copiesJoin?: true;
}

/**
 * Every field of a document that names another entry, one row each: renaming, removing and copying follow them. A test
 * walks the schema and fails when it finds a field for a name without a row.
 */
export const referenceFields: readonly ReferenceField[] = [
  { key: 'on', to: 'member', within: ['vehicle'], stands: 'alone', gone: 'entry' },
  { key: 'on', to: 'member', within: ['run', 'pulls'], stands: 'alone', gone: 'entry' },
  { key: 'member', to: 'member', within: ['vehicle', 'elements'], stands: 'alone', gone: 'entry' },
  { key: 'reaction', to: 'member', within: ['vehicle', 'wheels'], stands: 'alone', gone: 'name' },
  { key: 'train', to: 'member', within: ['vehicle', 'wheels'], stands: 'alone', gone: 'holder' },
  { key: 'motorOn', to: 'member', within: ['vehicle', 'wheels'], stands: 'alone', gone: 'name' },
  {
    key: 'driven',
    to: 'wheel',
    within: ['vehicle', 'drive'],
    stands: 'listed',
    gone: 'name',
    copiesJoin: true,
  },
  ...(['locked', 'open', 'motors'] as const).map(
    (key): ReferenceField => ({
      key,
      to: 'wheel',
      within: ['vehicle', 'drive', 'sharing'],
      stands: 'listed',
      gone: 'name',
      empty: 'holder',
      copiesJoin: true,
    }),
  ),
  {
    key: 'setBy',
    to: 'element',
    within: ['vehicle', 'rideHeight'],
    stands: 'listed',
    gone: 'name',
    empty: 'holder',
    copiesJoin: true,
  },
  {
    key: 'from',
    to: 'part',
    within: ['vehicle', 'driveline'],
    stands: 'either',
    gone: 'name',
    empty: 'field',
  },
  { key: 'wheels', to: 'wheel', within: ['vehicle', 'driveline'], stands: 'listed', gone: 'name' },
  { key: 'wheels', to: 'wheel', within: ['criteria'], stands: 'listed', gone: 'name', empty: 'holder' },
  { key: 'members', to: 'member', within: ['criteria'], stands: 'listed', gone: 'name', empty: 'holder' },
];

/** A name where it stands. */
export interface Reference {
  readonly path: Path;
  readonly name: string;
  readonly field: ReferenceField;
}

/** The row of a text at a path; undefined for a text that names nothing ('all' and 'locked' alone are words). */
export function fieldOf(path: Path): ReferenceField | undefined {
  const last = path.at(-1);
  const isListed = typeof last === 'number';
  const key = isListed ? path.at(-2) : last;
  return referenceFields.find(
    (field) =>
      field.key === key &&
      field.stands !== (isListed ? 'alone' : 'listed') &&
      field.within.every((step, i) => path[i] === step),
  );
}

/** Parts of a document in which names of others stand. */
const naming = ['vehicle', 'run', 'criteria'] as const;

/** Calls `found` for each text below a value. */
function texts(value: Json, path: Path, found: (path: Path, text: string) => void): void {
  if (typeof value === 'string') found(path, value);
  else if (isList(value)) for (const [i, inner] of value.entries()) texts(inner, [...path, i], found);
  else if (isObject(value))
    for (const [key, inner] of Object.entries(value)) texts(inner, [...path, key], found);
}

/** Every name of another entry below a value that stands at `path` of a document. */
export function referencesIn(value: Json, path: Path): readonly Reference[] {
  const found: Reference[] = [];
  texts(value, path, (at, name) => {
    const field = fieldOf(at);
    if (field !== undefined) found.push({ path: at, name, field });
  });
  return found;
}

/** Every name of another entry in a document. */
export function referencesOf(document: Json): readonly Reference[] {
  if (!isObject(document)) return [];
  return naming.flatMap((part) => (document[part] === undefined ? [] : referencesIn(document[part], [part])));
}

/** The sort of name that the entries of a list have; undefined where nothing refers to them. */
export function namedIn(list: Path): Named | undefined {
  const named: Readonly<Record<string, Named>> = {
    members: 'member',
    wheels: 'wheel',
    elements: 'element',
    parts: 'part',
  };
  const last = list.at(-1);
  return list[0] === 'vehicle' && typeof last === 'string' && Object.hasOwn(named, last)
    ? named[last]
    : undefined;
}

/** The document in which all that name an entry name it otherwise. */
export function renamed(document: Json, to: Named, from: string, name: string): Json {
  return referencesOf(document)
    .filter((reference) => reference.field.to === to && reference.name === from)
    .reduce<Json>((now, { path }) => withValue(now, path, name), document);
}
