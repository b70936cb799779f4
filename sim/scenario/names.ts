import { nearest } from '../../shared/near.ts';
import { type Path, pathText } from '../../shared/path.ts';
import type { Problems } from '../../shared/problem.ts';
import { childOf } from '../../shared/schema/describe.ts';

/** A name in a document and where it stands. */
interface Named {
  readonly name: string;
  readonly path: Path;
}

/** Lists whose entries have names, and what one entry is called. */
const lists = [
  { list: 'members', says: 'member' },
  { list: 'wheels', says: 'wheel' },
  { list: 'elements', says: 'element' },
  { list: 'masses', says: 'mass item' },
  { list: 'winches', says: 'winch' },
  { list: 'steering', says: 'steering' },
] as const;

/** More entries than any list may have are not looked at: the schema has refused the list. */
const most = 1000;

function listAt(document: unknown, path: readonly string[]): readonly unknown[] {
  const found = path.reduce<unknown>(childOf, document);
  return Array.isArray(found) ? found.slice(0, most) : [];
}

function namesIn(document: unknown, list: string): Named[] {
  return listAt(document, ['vehicle', list]).flatMap((entry, i) => {
    const name = childOf(entry, 'name');
    return typeof name === 'string' && name !== '' ? [{ name, path: ['vehicle', list, i, 'name'] }] : [];
  });
}

/** The same name twice in one list, or for a member and a wheel: tables and events could not tell them apart. */
function tellTwins(document: unknown, problems: Problems): void {
  const taken = new Map<string, Path>();
  for (const { list, says } of lists) {
    const shared = list === 'members' || list === 'wheels';
    const seen = shared ? taken : new Map<string, Path>();
    for (const { name, path } of namesIn(document, list)) {
      const first = seen.get(name);
      if (shared && name === 'chassis')
        problems.error(
          pathText(path),
          "no other part may be called 'chassis'",
          `give the ${says} another name`,
        );
      else if (first !== undefined)
        problems.error(
          pathText(path),
          `is '${name}', as ${pathText(first.slice(0, -1))} is called already`,
          'give each its own name',
        );
      else seen.set(name, path);
    }
  }
}

/** Fields that hold the name of a member; all but `member` take 'chassis' too. */
const memberFields = new Set(['on', 'reaction', 'member']);

/** All texts in such fields below `value`. */
function referencesIn(value: unknown, path: Path): Named[] {
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]): Named[] => {
    const step = Array.isArray(value) ? Number(key) : key;
    if (memberFields.has(key) && typeof inner === 'string') return [{ name: inner, path: [...path, step] }];
    return referencesIn(inner, [...path, step]);
  });
}

/** Names that a misspelt one is compared with: more than any vehicle that can run has. */
const compared = 250;

function tellUnknown(reference: Named, known: ReadonlySet<string>, says: string, problems: Problems): void {
  if (known.has(reference.name)) return;
  const few = [...known].slice(0, compared);
  const near = nearest(reference.name, few);
  const list = few.length === 0 ? `the vehicle has no ${says}s` : `known: ${few.slice(0, 20).join(', ')}`;
  const hint = near === undefined ? list : `did you mean "${near}"?`;
  problems.error(pathText(reference.path), `the vehicle has no ${says} called '${reference.name}'`, hint);
}

/**
 * Problems with names in a document as it stands, before or after the schema has looked at it: names given twice, and
 * names that nothing has. Criteria are checked beside their kinds.
 */
export function tellNames(document: unknown, problems: Problems): void {
  tellTwins(document, problems);
  const members = new Set(namesIn(document, 'members').map(({ name }) => name));
  const bodies = new Set(['chassis', ...members]);
  const wheels = new Set(namesIn(document, 'wheels').map(({ name }) => name));
  for (const place of [
    ['vehicle', 'members'],
    ['vehicle', 'elements'],
    ['vehicle', 'wheels'],
    ['vehicle', 'masses'],
    ['vehicle', 'winches'],
    ['vehicle', 'bodywork', 'outlines'],
  ]) {
    for (const reference of referencesIn(listAt(document, place), place)) {
      const known = reference.path.at(-1) === 'member' ? members : bodies;
      tellUnknown(reference, known, 'member', problems);
    }
  }
  listAt(document, ['vehicle', 'drive', 'driven']).forEach((name, i) => {
    if (typeof name === 'string')
      tellUnknown({ name, path: ['vehicle', 'drive', 'driven', i] }, wheels, 'wheel', problems);
  });
}
