import type { Vec2 } from '../../shared/geometry/vec.ts';
import { type Path, pathText } from '../../shared/path.ts';
import { isList, isObject, type Json, valueAt, withValue } from '../documents/json.ts';
import { type Carriage, carriedBy } from './carriage.ts';
import { writePoint } from './figures.ts';
import { entriesAt, entryLists, entryOf, listOf, nameAt } from './lists.ts';
import { freeName, takenIn } from './names.ts';
import { appended } from './put.ts';
import { type Named, namedIn, referencesIn, referencesOf } from './references.ts';

/** What becomes of a copy. */
export interface Copying {
  /** Where a point of the original lies in the copy, m. */
  place(at: Vec2): Vec2;
  /** What a name would best become; a free one like it is taken. */
  name(original: string): string;
  /** Further changes of an entry of the copy, whose original stands at `path`. */
  retouch?(entry: Json, path: Path): Json;
}

/** A document with copies in it, and where they stand, in the order of the originals. */
export interface Copied {
  readonly document: Json;
  readonly paths: readonly Path[];
}

/** Lists whose entries are copied with a member that they hang on. */
const alongLists = entryLists.filter(({ path }) =>
  ['members', 'wheels', 'masses', 'elements', 'outlines'].includes(path.at(-1) ?? ''),
);

/**
 * The entries that make up a part of the vehicle: the entry itself; for a member all that it carries, and the springs and
 * rods between these and what it hangs on. An axle is its member with wheel, springs and masses.
 */
export function groupOf(document: Json, carriage: Carriage, entry: Path): readonly Path[] {
  const name = nameAt(document, entry);
  if (listOf(entry)?.noun !== 'member' || name === undefined) return [entry];
  const names = carriedBy(carriage, name);
  const parent = carriage.parents.get(name) ?? 'chassis';
  const group = alongLists.flatMap(({ path: list }) =>
    entriesAt(document, list).flatMap(({ path, value }): Path[] => {
      if (list.at(-1) === 'members' && typeof value.name === 'string' && names.has(value.name)) return [path];
      const hangs = referencesIn(document, path).filter(({ field }) => field.gone === 'entry');
      const inside = hangs.some(({ name: on }) => names.has(on));
      return inside && hangs.every(({ name: on }) => names.has(on) || on === parent) ? [path] : [];
    }),
  );
  return [entry, ...group.filter((path) => pathText(path) !== pathText(entry))];
}

/** New names by sort and old name, and by the path of the entry. */
function namesFor(document: Json, entries: readonly Path[], how: Copying) {
  const taken = new Map<string, Set<string>>();
  const byEntry = new Map<string, string>();
  const byName = new Map<string, string>();
  for (const entry of entries) {
    const was = nameAt(document, entry);
    const list = listOf(entry);
    if (was === undefined || list?.names !== 'name') continue;
    // Members and wheels share one set of names.
    const key = ['members', 'wheels'].includes(list.path.at(-1) ?? '') ? 'bodies' : pathText(list.path);
    const used = taken.get(key) ?? new Set(takenIn(document, list.path));
    taken.set(key, used);
    const name = freeName(how.name(was), used);
    used.add(name);
    byEntry.set(pathText(entry), name);
    const to = namedIn(list.path);
    if (to !== undefined) byName.set(`${to} ${was}`, name);
  }
  return { byEntry, byName };
}

/** The document in which the names of copies stand beside those of their originals: driven wheels, sharing, ride height. */
function joined(document: Json, byName: ReadonlyMap<string, string>): Json {
  const lists = new Map<string, Path>();
  for (const { path, field, name, to } of referencesOf(document))
    if (field.copiesJoin === true && byName.has(`${to} ${name}`))
      lists.set(pathText(path.slice(0, -1)), path.slice(0, -1));
  return [...lists.values()].reduce<Json>((now, path) => {
    const list = valueAt(now, path);
    const to: Named = path.at(-1) === 'setBy' ? 'element' : 'wheel';
    if (!isList(list)) return now;
    const longer = list.flatMap((item) => {
      const copy = typeof item === 'string' ? byName.get(`${to} ${item}`) : undefined;
      return copy === undefined ? [item] : [item, copy];
    });
    return withValue(now, path, longer);
  }, document);
}

/** One entry of the copy. */
function copyOf(
  document: Json,
  carriage: Carriage,
  entry: Path,
  how: Copying,
  names: ReturnType<typeof namesFor>,
): Json {
  const value = valueAt(document, entry) ?? null;
  const inside = (path: Path) => path.slice(entry.length);
  const placed = carriage.points
    .filter((point) => pathText(point.entry) === pathText(entry))
    .reduce<Json>((now, { path, at }) => {
      const was = valueAt(now, inside(path));
      return withValue(now, inside(path), writePoint(how.place(at), was, carriage.grid));
    }, value);
  const hung = referencesIn(document, entry).reduce<Json>((now, { path, to, name }) => {
    const other = names.byName.get(`${to} ${name}`);
    return other === undefined ? now : withValue(now, inside(path), other);
  }, placed);
  const name = names.byEntry.get(pathText(entry));
  const called = name !== undefined && isObject(hung) ? { ...hung, name } : hung;
  return how.retouch?.(called, entry) ?? called;
}

/** Copies entries to the ends of their lists. References among them follow; new names stand beside the old in the drive. */
export function copied(document: Json, carriage: Carriage, entries: readonly Path[], how: Copying): Copied {
  const names = namesFor(document, entries, how);
  const copies = entries.map((entry) => ({
    list: entryOf(entry).slice(0, -1),
    value: copyOf(document, carriage, entry, how, names),
  }));
  const paths: Path[] = [];
  let after = document;
  for (const { list, value } of copies) {
    const was = valueAt(after, list);
    paths.push([...list, isList(was) ? was.length : 0]);
    after = appended(after, list, [value]);
  }
  return { document: joined(after, names.byName), paths };
}

/** The document with entries changed where they stand, under the names that they have. */
export function reshaped(
  document: Json,
  carriage: Carriage,
  entries: readonly Path[],
  how: Pick<Copying, 'place' | 'retouch'>,
): Json {
  const none: ReturnType<typeof namesFor> = { byEntry: new Map(), byName: new Map() };
  return entries.reduce<Json>(
    (now, entry) =>
      withValue(now, entry, copyOf(document, carriage, entry, { ...how, name: (name) => name }, none)),
    document,
  );
}
