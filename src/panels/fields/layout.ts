import type { Path } from '../../../shared/path.ts';
import { describeField, type FieldAbout, keysAt } from '../../../shared/schema/describe.ts';
import { scenarioDocument } from '../../../sim/scenario/schema.ts';
import { isList, isObject, type Json, valueAt } from '../../documents/json.ts';

/** A figure that may be changed: where it stands in the document, and what the schema says about it. */
export interface Field {
  readonly path: Path;
  /** 'x' or 'z' for one of a pair, else empty: the row's label says it all. */
  readonly part: string;
  readonly about: FieldAbout;
}

/** One line of the form: a figure, or the two of a point. */
export interface Row {
  readonly label: string;
  readonly fields: readonly Field[];
}

/** The figures of one entry of the document: a member, an element, a mass, an axle line, a piece of ground. */
export interface Block {
  readonly id: string;
  readonly title: string;
  /** What kind of thing it is, for people. */
  readonly kind: string;
  readonly rows: readonly Row[];
}

/** What belongs together on the vehicle: a member with the elements, masses and wheels on it. */
export interface Group {
  readonly id: string;
  readonly title: string;
  readonly blocks: readonly Block[];
}

/** Longest list of points of which each gets its own row; longer ones (measured roads) are edited in the file. */
const MOST_POINTS = 24;

/** 'torquePerWheel' → 'torque per wheel'. */
export function labelOf(key: string): string {
  return key.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
}

const takesFigure = (about: FieldAbout | undefined): about is FieldAbout =>
  about?.takes === 'figure' || about?.takes === 'number';

/** Rows of everything that can be changed below a place in the document, in the order of the schema. */
export function rowsOf(document: Json, path: Path, prefix = ''): readonly Row[] {
  return keysAt(scenarioDocument, document, path).flatMap((key) => {
    const at = [...path, key];
    const label = prefix === '' ? labelOf(key) : `${prefix} ${labelOf(key)}`;
    const about = describeField(scenarioDocument, document, at);
    if (takesFigure(about)) return [{ label, fields: [{ path: at, part: '', about }] }];
    return rowsInside(document, at, label);
  });
}

function rowsInside(document: Json, path: Path, label: string): readonly Row[] {
  const value = valueAt(document, path);
  if (isList(value)) {
    if (value.length > MOST_POINTS) return [];
    return value.flatMap((_, index) => rowsInside(document, [...path, index], `${label} ${index + 1}`));
  }
  if (!isObject(value)) return itemRow(document, path, label);
  const pair = pairOf(document, path);
  return pair === undefined ? rowsOf(document, path, label) : [{ label, fields: pair }];
}

/** A figure that is an item of a list. */
function itemRow(document: Json, path: Path, label: string): readonly Row[] {
  const about = describeField(scenarioDocument, document, path);
  return typeof path.at(-1) === 'number' && takesFigure(about)
    ? [{ label, fields: [{ path, part: '', about }] }]
    : [];
}

/** The two figures of a point, or of a pair in a table (`travel` and `force`); undefined for anything else. */
function pairOf(document: Json, path: Path): readonly Field[] | undefined {
  const fields = keysAt(scenarioDocument, document, path).flatMap((key): Field[] => {
    const about = describeField(scenarioDocument, document, [...path, key]);
    return takesFigure(about) ? [{ path: [...path, key], part: labelOf(key), about }] : [];
  });
  return fields.length === 2 && fields.every(({ part }) => part.length <= 7) ? fields : undefined;
}

/** An entry of one of the document's lists. */
export interface Entry {
  readonly path: Path;
  readonly value: { readonly [key: string]: Json };
}

/** The entries of a list of the document; empty when there is none. */
export function entriesOf(document: Json, path: Path): readonly Entry[] {
  const list = valueAt(document, path);
  if (!isList(list)) return [];
  return list.flatMap((value, index) => (isObject(value) ? [{ path: [...path, index], value }] : []));
}

const textOf = (value: Json | undefined): string | undefined =>
  typeof value === 'string' ? value : undefined;

/** What kind of thing an entry is, for people: 'Swinging arm'. */
export function kindTitle(document: Json, { path, value }: Entry): string {
  const about = describeField(scenarioDocument, document, [...path, 'kind']);
  return about?.description?.replace(/\.$/, '') ?? textOf(value.kind) ?? '';
}

function blockOf(document: Json, entry: Entry, title: string, kind: string): Block {
  return { id: entry.path.join('.'), title, kind, rows: rowsOf(document, entry.path) };
}

/** Where an entry belongs: the member it is on; a rod or an element between two points belongs to the one that moves. */
export function ownerOf({ value }: Entry): string {
  const acts = isObject(value.on) ? value.on : value;
  if (textOf(value.on) !== undefined) return textOf(value.on) ?? 'chassis';
  const ends = [
    acts.member,
    isObject(acts.to) ? acts.to.on : undefined,
    isObject(acts.from) ? acts.from.on : undefined,
  ];
  return ends.map(textOf).find((name) => name !== undefined && name !== 'chassis') ?? 'chassis';
}

/** Elements, masses and wheels with their owners. */
function attached(document: Json): readonly { readonly owner: string; readonly block: Block }[] {
  const parts = [
    { list: 'elements', kind: undefined },
    { list: 'wheels', kind: 'Axle line' },
    { list: 'masses', kind: 'Mass' },
    { list: 'winches', kind: 'Winch' },
    { list: 'steering', kind: 'Steering' },
  ] as const;
  return parts.flatMap(({ list, kind }) =>
    entriesOf(document, ['vehicle', list]).map((entry) => {
      const title = textOf(entry.value.name) ?? list;
      const block = blockOf(document, entry, title, kind ?? kindTitle(document, entry));
      return { owner: ownerOf(entry), block };
    }),
  );
}

function memberGroups(document: Json, parts: ReturnType<typeof attached>): readonly Group[] {
  return entriesOf(document, ['vehicle', 'members']).map((entry) => {
    const name = textOf(entry.value.name) ?? 'member';
    const own = blockOf(document, entry, name, kindTitle(document, entry));
    const blocks = [own, ...parts.filter(({ owner }) => owner === name).map(({ block }) => block)];
    return { id: `member ${name}`, title: name, blocks };
  });
}

function single(document: Json, id: string, title: string, path: Path): Group {
  return { id, title, blocks: [{ id, title: '', kind: '', rows: rowsOf(document, path) }] };
}

function groundGroup(document: Json): Group {
  const blocks = entriesOf(document, ['ground']).map((entry, index) => {
    const kind = kindTitle(document, entry);
    return blockOf(document, entry, textOf(entry.value.title) ?? `piece ${index + 1}`, kind);
  });
  return { id: 'ground', title: 'Ground', blocks };
}

function criteriaGroup(document: Json): Group {
  const blocks = entriesOf(document, ['criteria']).map((entry) => {
    const title = kindTitle(document, entry);
    return blockOf(document, entry, title, '');
  });
  return { id: 'criteria', title: 'Asked for', blocks };
}

/** Figures that belong to no part: gravity, the scale, the reference point. */
function vehicleGroup(document: Json, parts: ReturnType<typeof attached>, members: readonly string[]): Group {
  const loose = parts.filter(({ owner }) => !members.includes(owner)).map(({ block }) => block);
  const paths = [['vehicle', 'scale'], ['vehicle', 'reference'], ['gravity']] as const;
  const rows = paths.flatMap((path): Row[] => {
    const about = describeField(scenarioDocument, document, path);
    const label = labelOf(path.at(-1) ?? '');
    if (takesFigure(about)) return [{ label, fields: [{ path, part: '', about }] }];
    return [...rowsInside(document, path, label)];
  });
  return {
    id: 'vehicle',
    title: 'Chassis',
    blocks: [...loose, { id: 'whole', title: 'Whole', kind: '', rows }],
  };
}

/** The whole form of a document: drive, members, chassis, ground, run, what is asked for. Groups without figures are left out. */
export function formOf(document: Json): readonly Group[] {
  const parts = attached(document);
  const members = memberGroups(document, parts);
  const names = entriesOf(document, ['vehicle', 'members']).map(({ value }) => textOf(value.name) ?? '');
  const groups = [
    single(document, 'drive', 'Drive', ['vehicle', 'drive']),
    ...members,
    vehicleGroup(document, parts, names),
    groundGroup(document),
    single(document, 'run', 'Run', ['run']),
    criteriaGroup(document),
  ];
  return groups
    .map((group) => ({ ...group, blocks: group.blocks.filter(({ rows }) => rows.length > 0) }))
    .filter(({ blocks }) => blocks.length > 0);
}

/** A figure as a document has it: a number, or text that begins like one. */
const isFigureValue = (value: Json | undefined): boolean =>
  typeof value === 'number' || (typeof value === 'string' && /^\s*[-+−.\d]/.test(value));

/**
 * Whether two documents have the same form: they differ in nothing but figures. Quick for a document and its edited
 * successor, which share what did not change.
 */
export function sameForm(a: Json | undefined, b: Json | undefined): boolean {
  if (a === b) return true;
  if (isList(a) && isList(b)) return a.length === b.length && a.every((item, i) => sameForm(item, b[i]));
  if (isObject(a) && isObject(b)) {
    const keys = Object.keys(a);
    return (
      keys.length === Object.keys(b).length &&
      keys.every((key) => Object.hasOwn(b, key) && sameForm(a[key], b[key]))
    );
  }
  return isFigureValue(a) && isFigureValue(b);
}

/** The groups that hold something with all these words in title, kind or label; blocks and rows without are left out. */
export function found(groups: readonly Group[], search: string): readonly Group[] {
  const words = search.toLowerCase().split(/\s+/).filter(Boolean);
  if (words.length === 0) return groups;
  const fits = (...texts: readonly string[]): boolean => {
    const text = texts.join(' ').toLowerCase();
    return words.every((word) => text.includes(word));
  };
  return groups
    .map((group) => ({
      ...group,
      blocks: group.blocks
        .map((block) => ({
          ...block,
          rows: block.rows.filter(({ label }) => fits(group.title, block.title, block.kind, label)),
        }))
        .filter(({ rows }) => rows.length > 0),
    }))
    .filter(({ blocks }) => blocks.length > 0);
}
