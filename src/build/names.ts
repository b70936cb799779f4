import type { Path } from '../../shared/path.ts';
import type { Json } from '../documents/json.ts';
import { entriesAt, nameAt } from '../edits/lists.ts';
import { fieldOf, namedLists } from '../edits/references.ts';

/** Keys that name a member that is none but a member; all others may name the chassis too. */
const MEMBERS_ONLY = new Set<unknown>(['member', 'train', 'members']);

/**
 * The names that may stand at a place of the document: those of members, axle lines, elements or parts of the driveline,
 * the entry's own left out; undefined where any text may stand.
 */
export function namesFor(document: Json, path: Path): readonly string[] | undefined {
  const field = fieldOf(path);
  if (field === undefined) return undefined;
  const list = namedLists[field.to];
  const own = list.every((step, i) => step === path[i]) ? path.slice(0, list.length + 1).join() : '';
  const names = entriesAt(document, list)
    .filter((entry) => entry.path.join() !== own)
    .flatMap((entry) => nameAt(document, entry.path) ?? []);
  return field.to === 'member' && !MEMBERS_ONLY.has(field.key) ? ['chassis', ...names] : names;
}
