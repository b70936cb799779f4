import { type Path, pathText } from '../../shared/path.ts';
import { isList, isObject, type Json, valueAt, withValue } from '../documents/json.ts';
import { entriesAt } from './lists.ts';

/** What a name is the name of. Members and wheels share their names; the others have their own. */
export type Named = 'member' | 'wheel' | 'element' | 'part' | 'controller';

/** Where the entries of each sort stand. */
export const namedLists: Readonly<Record<Named, Path>> = {
  member: ['vehicle', 'members'],
  wheel: ['vehicle', 'wheels'],
  element: ['vehicle', 'elements'],
  part: ['vehicle', 'driveline', 'parts'],
  controller: ['vehicle', 'driveline', 'controllers'],
};

/** A field that holds the name of another entry, or a list of such names. */
export interface ReferenceField {
  readonly key: string;
  readonly to: Named;
  /** Other sorts that it may name; the first that has the name is meant. */
  readonly or?: readonly Named[];
  /** Where it may stand: the first keys of its path. */
  readonly within: readonly string[];
  /** Key of the object that holds it, where that matters. */
  readonly under?: string;
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
  { key: 'controller', to: 'controller', within: ['vehicle', 'driveline'], stands: 'alone', gone: 'name' },
  {
    key: 'shaft',
    to: 'part',
    within: ['vehicle', 'driveline'],
    under: 'against',
    stands: 'alone',
    gone: 'holder',
  },
  { key: 'shaft', to: 'part', within: ['vehicle', 'driveline'], stands: 'alone', gone: 'name' },
  { key: 'from', to: 'part', within: ['vehicle', 'winches'], stands: 'alone', gone: 'name' },
  { key: 'wheel', to: 'wheel', within: ['vehicle', 'steering'], stands: 'alone', gone: 'holder' },
  { key: 'member', to: 'member', within: ['vehicle', 'strength'], stands: 'alone', gone: 'entry' },
  { key: 'element', to: 'element', within: ['vehicle', 'strength'], stands: 'alone', gone: 'entry' },
  {
    key: 'parts',
    to: 'part',
    or: ['element', 'member'],
    within: ['criteria'],
    stands: 'listed',
    gone: 'name',
    empty: 'holder',
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

/** Fields for names of things inside the same entry: the engaged gear of a gearbox. They follow nothing outside. */
export const innerNames: readonly string[] = ['gear'];

/** A name where it stands. */
export interface Reference {
  readonly path: Path;
  /** Name of the entry that is meant. */
  readonly name: string;
  /** What sort of entry it means. */
  readonly to: Named;
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
      (field.under === undefined || field.under === path.at(-2)) &&
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

/** Whether an entry of a sort has a name. */
export const exists = (document: Json, to: Named, name: string): boolean =>
  entriesAt(document, namedLists[to]).some(({ value }) => value.name === name);

/** What a text means: in a field that may name several sorts of things, the first sort that has such a name. */
function meant(document: Json, path: Path, field: ReferenceField, name: string): Reference {
  if (field.or === undefined) return { path, name, to: field.to, field };
  const to = [field.to, ...field.or].find((sort) => exists(document, sort, name));
  return { path, name, to: to ?? field.to, field };
}

/** Every name of another entry below a place of a document. */
export function referencesIn(document: Json, path: Path): readonly Reference[] {
  const found: Reference[] = [];
  const value = valueAt(document, path);
  if (value === undefined) return found;
  texts(value, path, (at, text) => {
    const field = fieldOf(at);
    if (field !== undefined) found.push(meant(document, at, field, text));
  });
  return found;
}

/** Every name of another entry in a document. */
export const referencesOf = (document: Json): readonly Reference[] =>
  naming.flatMap((part) => referencesIn(document, [part]));

/** The sort of name that the entries of a list have; undefined where nothing refers to them. */
export function namedIn(list: Path): Named | undefined {
  const sorts = Object.keys(namedLists) as Named[];
  return sorts.find((sort) => pathText(namedLists[sort]) === pathText(list));
}

/** The document in which all that name an entry name it otherwise. */
export function renamed(document: Json, to: Named, from: string, name: string): Json {
  return referencesOf(document)
    .filter((reference) => reference.to === to && reference.name === from)
    .reduce<Json>((now, { path }) => withValue(now, path, name), document);
}
