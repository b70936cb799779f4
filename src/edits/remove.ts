import { type Path, pathText } from '../../shared/path.ts';
import { isList, type Json, valueAt, withValue } from '../documents/json.ts';
import { carriageOf } from './carriage.ts';
import { declined, type Edit, edited, type Remark } from './edit.ts';
import { entriesAt, entryLists, entryOf, listOf, nameAt, titleOf } from './lists.ts';
import { type Named, namedIn, namedLists, type Reference, referencesIn, referencesOf } from './references.ts';
import { without } from './strip.ts';

/** How an entry is removed. */
export interface RemoveOptions {
  /** Hangs what the removed member carries on its parent, instead of removing it too. */
  readonly leaveHanging?: boolean;
}

const keyOf = (to: Named | undefined, name: string | undefined): string => `${to} ${name}`;

/** The name of an entry as others refer to it; undefined when nothing can. */
function referredAs(document: Json, entry: Path): string | undefined {
  const list = listOf(entry);
  const to = list === undefined ? undefined : namedIn(list.path);
  const name = nameAt(document, entry);
  return to === undefined || name === undefined ? undefined : keyOf(to, name);
}

/** Whether a reference means one of these names. */
export const means = (names: ReadonlySet<string>, { to, name }: Reference): boolean =>
  names.has(keyOf(to, name));

/** An entry and all that cannot be without it, in the order in which they were found. */
function goingWith(
  document: Json,
  entry: Path,
): { readonly entries: readonly Path[]; readonly names: ReadonlySet<string> } {
  const entries = new Map([[pathText(entry), entry]]);
  const names = new Set([referredAs(document, entry)].filter((name) => name !== undefined));
  const references = referencesOf(document).filter(({ field }) => field.gone === 'entry');
  for (let grown = -1; grown < entries.size; ) {
    grown = entries.size;
    for (const reference of references.filter((r) => means(names, r))) {
      const hanger = entryOf(reference.path);
      entries.set(pathText(hanger), hanger);
      const name = referredAs(document, hanger);
      if (name !== undefined) names.add(name);
    }
  }
  return { entries: [...entries.values()], names };
}

/** What goes of the document with a name that is gone. */
function dropOf({ path, field }: Reference): Path {
  return field.gone === 'holder' ? path.slice(0, -1) : path;
}

/** Entries between two points that lie on one part now, so that they hold and press nothing. */
function idle(document: Json, before: Json): readonly Path[] {
  return entryLists.flatMap(({ path: list }) =>
    entriesAt(document, list).flatMap(({ path }): Path[] => {
      const ends = (of: Json) => referencesIn(of, path).filter(({ field }) => field.key === 'on');
      const now = ends(document);
      if (now.length < 2 || now.some(({ name }) => name !== now[0]?.name)) return [];
      const was = ends(before);
      return was.some(({ name }) => name !== was[0]?.name) ? [path] : [];
    }),
  );
}

/** The document in which what hangs on a member hangs on its parent. */
function hungHigher(document: Json, entry: Path): Json {
  const name = nameAt(document, entry);
  const parent = name === undefined ? undefined : carriageOf(document).parents.get(name);
  if (parent === undefined) return document;
  return referencesOf(document)
    .filter(({ field, name: on }) => field.key === 'on' && on === name)
    .reduce<Json>((now, { path }) => withValue(now, path, parent), document);
}

/** The document in which what a drive line part turned is turned by the part before it. */
function spliced(document: Json, entry: Path): Json {
  const list = entry.slice(0, -1);
  const [from, name] = [valueAt(document, [...entry, 'from']), nameAt(document, entry)];
  if (pathText(list) !== pathText(namedLists.part) || typeof from !== 'string') return document;
  const before = entriesAt(document, list).find(({ value }) => value.name === from);
  const wheels = valueAt(document, [...entry, 'wheels']);
  const linked = referencesOf(document)
    .filter(
      (reference) => reference.to === 'part' && reference.name === name && reference.field.key === 'from',
    )
    .reduce<Json>((now, { path }) => withValue(now, path, from), document);
  if (before === undefined || !isList(wheels) || wheels.length === 0) return linked;
  const own = isList(before.value.wheels) ? before.value.wheels : [];
  return withValue(linked, [...before.path, 'wheels'], [...own, ...wheels]);
}

/** Tells what went along, by name. */
function goneAlong(document: Json, entries: readonly Path[]): readonly Remark[] {
  const [entry, ...others] = entries;
  if (entry === undefined || others.length === 0) return [];
  const titles = others.map((path) => titleOf(document, path));
  return [
    {
      path: pathText(entry.slice(0, -1)),
      message: `with ${titleOf(document, entry)} went what hung on it: ${titles.join(', ')}`,
      severity: 'warning',
    },
  ];
}

/**
 * Removes an entry, or a point of a list of points, with all that hangs on it: members, wheels, masses, springs that
 * ended there. Names of what is gone disappear from the drive, the sharing tree, the ride height and the criteria.
 * A part taken out of a drive line leaves what it turned to the part before it. `leaveHanging` keeps what a member carries and hangs it on the member's parent.
 */
export function removeEntry(document: Json, path: Path, options: RemoveOptions = {}): Edit {
  const entry = entryOf(path);
  const isItem = typeof path.at(-1) === 'number';
  const isPoint = isItem && path.length > entry.length && valueAt(document, path) !== undefined;
  const says = `remove ${isPoint ? `point ${Number(path.at(-1)) + 1} of ` : ''}${titleOf(document, entry)}`;
  if (isPoint) return edited(document, without(document, [path]), says, { select: entry });
  if (typeof entry.at(-1) !== 'number' || valueAt(document, entry) === undefined)
    return declined(document, says, pathText(entry), 'is nothing that could be removed by itself');
  const linked = spliced(document, entry);
  const hung = options.leaveHanging === true ? hungHigher(linked, entry) : linked;
  const { entries, names } = goingWith(hung, entry);
  const all = [...entries, ...(hung === document ? [] : idle(hung, document))];
  const doomed = new Set(all.map(pathText));
  const lost = referencesOf(hung)
    .filter((reference) => means(names, reference) && !doomed.has(pathText(entryOf(reference.path))))
    .map(dropOf);
  return edited(document, without(hung, [...all, ...lost]), says, { remarks: goneAlong(document, all) });
}
