import { type Path, pathText } from '../../shared/path.ts';
import { isList, isObject, type Json, valueAt } from '../documents/json.ts';
import { type Entry, entriesOf, kindTitle, labelOf, ownerOf } from '../panels/fields/layout.ts';

/** One line of the parts tree: an entry of the document, a single object of it, or a heading over others. */
export interface Part {
  readonly id: string;
  /** Where it stands in the document; undefined for a heading. */
  readonly path: Path | undefined;
  readonly title: string;
  /** What kind of thing it is, for people. */
  readonly kind: string;
  readonly children: readonly Part[];
}

/** Underside of the chassis: a list of points without a name. */
const BELLY: Path = ['vehicle', 'bodywork', 'belly'];

const STRENGTH: Path = ['vehicle', 'strength'];

/** Lists whose entries lie on members, with what one of them is when it has no kind of its own. */
const CARRIED = [
  { list: ['vehicle', 'wheels'], kind: 'Axle line' },
  { list: ['vehicle', 'elements'], kind: undefined },
  { list: ['vehicle', 'masses'], kind: 'Mass' },
  { list: ['vehicle', 'winches'], kind: undefined },
  { list: ['vehicle', 'steering'], kind: undefined },
  { list: ['vehicle', 'bodywork', 'outlines'], kind: 'Outline' },
] as const;

const nameOf = ({ value }: Entry): string => {
  const { name, title } = value;
  if (typeof name === 'string') return name;
  return typeof title === 'string' ? title : '';
};

function partOf(document: Json, entry: Entry, kind: string | undefined, children: readonly Part[]): Part {
  const what = kind ?? kindTitle(document, entry);
  const named = nameOf(entry);
  const number = Number(entry.path.at(-1)) + 1;
  return {
    id: pathText(entry.path),
    path: entry.path,
    title: named === '' ? `${what} ${number}` : named,
    kind: named === '' ? '' : what,
    children,
  };
}

const heading = (title: string, children: readonly Part[], path?: Path): Part => ({
  id: path === undefined ? title : pathText(path),
  path,
  title,
  kind: '',
  children,
});

/** What hangs on each member: first the members, then wheels, springs, masses and outlines. */
function hangingOn(document: Json): {
  readonly below: (owner: string) => readonly Part[];
  readonly lost: () => readonly Part[];
} {
  const members = entriesOf(document, ['vehicle', 'members']);
  const carried = CARRIED.flatMap(({ list, kind }) =>
    entriesOf(document, list).map((entry) => ({ entry, kind, owner: ownerOf(entry) })),
  );
  const all = [...members.map((entry) => ({ entry, kind: undefined, owner: ownerOf(entry) })), ...carried];
  const told = new Set<string>();
  const below = (owner: string): readonly Part[] =>
    all
      .filter((each) => each.owner === owner)
      .flatMap(({ entry, kind }) => {
        const id = pathText(entry.path);
        // Members that hang on each other in a ring are a problem of the document, not of the tree.
        if (told.has(id)) return [];
        told.add(id);
        const isMember = entry.path[1] === 'members';
        return [partOf(document, entry, kind, isMember ? below(nameOf(entry)) : [])];
      });
  const lost = () =>
    all
      .filter(({ entry }) => !told.has(pathText(entry.path)))
      .flatMap(({ entry, kind }) => {
        if (told.has(pathText(entry.path))) return [];
        told.add(pathText(entry.path));
        return [partOf(document, entry, kind, entry.path[1] === 'members' ? below(nameOf(entry)) : [])];
      });
  return { below, lost };
}

/** A list of the document as lines of the tree. */
function listed(document: Json, list: Path): readonly Part[] {
  return entriesOf(document, list).map((entry) => partOf(document, entry, undefined, []));
}

/** The driveline: its single object, and the parts of it where there are some. */
function driving(document: Json): readonly Part[] {
  const drive = isObject(valueAt(document, ['vehicle', 'drive']))
    ? [heading('Drive', [], ['vehicle', 'drive'])]
    : [];
  const line = valueAt(document, ['vehicle', 'driveline']);
  if (!isObject(line)) return drive;
  const lists = Object.entries(line).flatMap(([key, value]) =>
    isList(value) ? listed(document, ['vehicle', 'driveline', key]) : [],
  );
  return [...drive, heading('Driveline', lists, ['vehicle', 'driveline'])];
}

/**
 * The parts of a document as they hang on each other: the chassis with its members, each with what it carries; then
 * drive, ground, run and what is asked for.
 */
export function partsOf(document: Json): readonly Part[] {
  const { below, lost } = hangingOn(document);
  const belly = isList(valueAt(document, BELLY)) ? [heading('Belly', [], BELLY)] : [];
  const chassis = heading('Chassis', [...below('chassis'), ...belly], ['vehicle']);
  const loose = lost();
  const rated = listed(document, ['vehicle', 'strength', 'parts']);
  const pulls = listed(document, ['run', 'pulls']);
  return [
    chassis,
    ...(loose.length === 0 ? [] : [heading('Hangs on nothing', loose)]),
    ...driving(document),
    ...(isObject(valueAt(document, STRENGTH)) ? [heading('Strength', rated, STRENGTH)] : []),
    heading('Ground', listed(document, ['ground'])),
    heading('Run', pulls, ['run']),
    heading('Asked for', listed(document, ['criteria'])),
  ];
}

/** The parts that are in sight, in order, with their level (from 1) and place among their siblings. */
export interface Line {
  readonly part: Part;
  readonly level: number;
  readonly place: number;
  readonly of: number;
  readonly parent: string | undefined;
}

/** The lines of a tree of which some parts are closed. */
export function linesOf(
  parts: readonly Part[],
  closed: ReadonlySet<string>,
  level = 1,
  parent?: string,
): readonly Line[] {
  return parts.flatMap((part, i) => [
    { part, level, place: i + 1, of: parts.length, parent },
    ...(closed.has(part.id) ? [] : linesOf(part.children, closed, level + 1, part.id)),
  ]);
}

/** The ids of all parts above one, from the root down; undefined when it is not in the tree. */
export function wayTo(parts: readonly Part[], id: string): readonly string[] | undefined {
  for (const part of parts) {
    if (part.id === id) return [];
    const way = wayTo(part.children, id);
    if (way !== undefined) return [part.id, ...way];
  }
  return undefined;
}

/** What an entry is called in a sentence: its name, or kind and number. */
export function titleOf(document: Json, path: Path): string {
  const value = valueAt(document, path);
  const list = path.slice(0, -1);
  if (pathText(path) === 'vehicle') return 'Chassis';
  if (!isObject(value) || typeof path.at(-1) !== 'number') {
    const words = labelOf(String(path.at(-1) ?? 'document'));
    return words.charAt(0).toUpperCase() + words.slice(1);
  }
  const kind = CARRIED.find((each) => pathText(each.list) === pathText(list))?.kind;
  return partOf(document, { path, value }, kind, []).title;
}
