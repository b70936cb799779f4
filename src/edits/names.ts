import type { Path } from '../../shared/path.ts';
import type { Json } from '../documents/json.ts';
import { entriesAt, listOf } from './lists.ts';

/** Longest name that a document takes. */
const LONGEST = 60;

/** Names that the entries of a list may not have: those of the list; members and wheels share theirs, and 'chassis'. */
export function takenIn(document: Json, list: Path): ReadonlySet<string> {
  const shared = list[0] === 'vehicle' && (list[1] === 'members' || list[1] === 'wheels');
  const lists = shared
    ? [
        ['vehicle', 'members'],
        ['vehicle', 'wheels'],
      ]
    : [list];
  const key = listOf(list)?.names ?? 'name';
  const names = lists.flatMap((path) =>
    entriesAt(document, path).flatMap(({ value }) => {
      const name = value[key];
      return typeof name === 'string' ? [name] : [];
    }),
  );
  return new Set(shared ? ['chassis', ...names] : names);
}

/** The name if it is free, else the first free one of 'name 2', 'name 3', …; never longer than a name may be. */
export function freeName(name: string, taken: ReadonlySet<string>): string {
  const wanted = name.slice(0, LONGEST);
  if (!taken.has(wanted)) return wanted;
  const stem = wanted.replace(/ \d{1,4}$/, '');
  for (let n = 2; ; n++) {
    const next = `${stem.slice(0, LONGEST - 1 - String(n).length)} ${n}`;
    if (!taken.has(next)) return next;
  }
}
