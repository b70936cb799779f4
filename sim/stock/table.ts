import { dsvFormat } from 'd3-dsv';
import { didYouMean } from '../../shared/near.ts';
import { type Checked, type Problem, Problems } from '../../shared/problem.ts';
import { itemFields } from './kind.ts';
import { readStock } from './read.ts';
import { type StockList, stockFormat, stockKinds, stockLists, stockVersion } from './registry.ts';
import type { Stock } from './stock.ts';

/** A column of a table: the word in its head, the unit there, and what it means. */
interface Column {
  readonly at: number;
  readonly word: string;
  /** Unit for cells that are plain numbers: 'N/mm' of "rate [N/mm]". */
  readonly unit: string | undefined;
}

/** A line with cells: its number in the file, counted from 1. */
interface Line {
  readonly number: number;
  readonly cells: readonly string[];
}

type Kind = (typeof stockKinds)[number];

/** Words for columns that every list has. */
const common: Readonly<Record<string, readonly string[]>> = {
  name: ['name'],
  item: ['name'],
  part: ['name'],
  count: ['count'],
  number: ['count'],
  pieces: ['count'],
  quantity: ['count'],
  note: ['note'],
  notes: ['note'],
};

const listWords = ['list', 'kind', 'sort of part'];

/** Words for a list in its column: 'spring', 'springs', 'torsion bar'. */
const listCalled = (word: string): StockList | undefined =>
  stockKinds.find((kind) => [kind.list, kind.list.slice(0, -1), kind.one].includes(plain(word)))?.list;

const plain = (word: string): string => word.trim().toLowerCase().replace(/\s+/g, ' ');

/** 'freeLength' as people write it in the head of a column: 'free length'. */
const spoken = (field: string): string => field.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);

/** What the words in the head may mean for a list, as paths into an item. */
function wordsOf(kind: Kind): ReadonlyMap<string, readonly string[]> {
  const own = Object.keys({ ...itemFields, ...kind.fields.shape }).map(
    (field) => [spoken(field), [field]] as const,
  );
  const words: Readonly<Record<string, readonly string[]>> = kind.words;
  return new Map<string, readonly string[]>([...Object.entries(common), ...own, ...Object.entries(words)]);
}

/**
 * Reads a stock list from a table: text with commas, semicolons or tabs between its columns, the first line saying what
 * they are, with units in brackets: "name; count; rate [N/mm]; free length [mm]". A cell may have its own unit and a
 * spread ("1.2 N/mm ± 5 %"). Lists are told apart by a column 'list', or the whole table is `list`. Lines that begin
 * with # are remarks. Problems are told by line and column.
 * @param list the list that all lines belong to; when left out, there must be a column 'list'
 */
export function readStockTable(text: string, list?: StockList): Checked<Stock> {
  const problems = new Problems();
  const lines = linesOf(text, problems);
  const [head, ...rows] = lines.rows;
  if (head === undefined) {
    problems.error('', 'is empty', 'the first line says what the columns are: name; count; rate [N/mm]; …');
    return { ok: false, problems: problems.list };
  }
  const columns = columnsOf(head);
  const listColumn = columns.find(({ word }) => listWords.includes(word));
  if (list === undefined && listColumn === undefined)
    problems.error(
      `line ${head.number}`,
      "has no column 'list', so nobody knows what these parts are",
      `add one, with ${stockLists.join(', ')} in its cells, or say the list`,
    );
  tellTwiceInHead(columns, head.number, problems);
  if (problems.failed) return { ok: false, problems: problems.list };
  return build(rows, columns, { list, listColumn, head: head.number, comma: lines.comma }, problems);
}

/** The lines with cells, and whether numbers in them may have a decimal comma. */
function linesOf(text: string, problems: Problems): { rows: Line[]; comma: boolean } {
  const first = text
    .split(/\r\n|\r|\n/)
    .find((line) => line.trim() !== '' && !line.trimStart().startsWith('#'));
  const separator = ['\t', ';'].find((sign) => first?.includes(sign)) ?? ',';
  const parsed = dsvFormat(separator).parseRows(text.replace(/^\uFEFF/, ''));
  const rows = parsed.flatMap((cells, i): Line[] => {
    if (cells.some((cell) => /[\r\n]/.test(cell)))
      problems.error(
        `line ${i + 1}`,
        'a quote is opened here and not closed on this line',
        'close or remove it',
      );
    const trimmed = cells.map((cell) => cell.trim());
    const blank = trimmed.every((cell) => cell === '') || trimmed[0]?.startsWith('#') === true;
    return blank ? [] : [{ number: i + 1, cells: trimmed }];
  });
  return { rows, comma: separator !== ',' };
}

/** Columns with a head; the unit stands in brackets behind the word. */
function columnsOf(head: Line): Column[] {
  return head.cells.flatMap((cell, at) => {
    if (cell === '') return [];
    const [, word = cell, unit] = /^(.*?)\s*[[(]([^\])]*)[\])]\s*$/.exec(cell) ?? [];
    return [{ at, word: plain(word), unit: unit?.trim() === '' ? undefined : unit?.trim() }];
  });
}

function tellTwiceInHead(columns: readonly Column[], line: number, problems: Problems): void {
  columns.forEach(({ word }, i) => {
    if (columns.findIndex((column) => column.word === word) < i)
      problems.error(`line ${line}`, `has two columns '${word}'`, 'keep one of them');
  });
}

interface Layout {
  readonly list: StockList | undefined;
  readonly listColumn: Column | undefined;
  readonly head: number;
  readonly comma: boolean;
}

/** Makes the document that the table stands for, reads it, and tells its problems by line and column. */
function build(
  rows: readonly Line[],
  columns: readonly Column[],
  layout: Layout,
  problems: Problems,
): Checked<Stock> {
  const lists = new Map<StockList, { entries: object[]; lines: number[] }>();
  for (const row of rows) {
    const called = layout.listColumn === undefined ? undefined : (row.cells[layout.listColumn.at] ?? '');
    const list = called === undefined ? layout.list : listCalled(called);
    if (list === undefined) {
      problems.error(
        `line ${row.number}`,
        called === '' ? "has nothing in its column 'list'" : `'${called}' is no list of parts`,
        didYouMean(called ?? '', stockLists) ?? `the lists: ${stockLists.join(', ')}`,
      );
      continue;
    }
    const at = lists.get(list) ?? { entries: [], lines: [] };
    lists.set(list, at);
    at.entries.push(entryOf(row, columns, list, layout, problems));
    at.lines.push(row.number);
  }
  tellUnknownWords(columns, [...lists.keys()], layout, problems);
  tellMissingColumns(columns, [...lists.keys()], layout, problems);
  if (problems.failed) return { ok: false, problems: problems.list };
  const document = {
    format: stockFormat,
    version: stockVersion,
    ...Object.fromEntries([...lists].map(([list, { entries }]) => [list, entries])),
  };
  const read = readStock(document);
  const lineOf = (list: string, index: number) => lists.get(list as StockList)?.lines[index] ?? 0;
  const told = read.problems.map((problem) => byLine(problem, columns, lineOf));
  return read.ok ? { ...read, problems: told } : { ok: false, problems: told };
}

const kindOf = (list: StockList): Kind => stockKinds.find((kind) => kind.list === list) as Kind;

/** The item on a line. Empty cells say nothing. */
function entryOf(
  row: Line,
  columns: readonly Column[],
  list: StockList,
  layout: Layout,
  problems: Problems,
): object {
  const words = wordsOf(kindOf(list));
  const entry: Record<string, unknown> = {};
  if (row.cells.length > columns.length && row.cells.slice(columns.length).some((cell) => cell !== ''))
    problems.error(
      `line ${row.number}`,
      `has ${row.cells.length} cells, the first line has ${columns.length} columns`,
      layout.comma
        ? undefined
        : 'commas separate columns here: write decimals with a point, or put quotes about text',
    );
  for (const column of columns) {
    const path = words.get(column.word);
    const cell = row.cells[column.at] ?? '';
    if (path === undefined || cell === '' || column === layout.listColumn) continue;
    const [key = '', inner] = path;
    const value = cellValue(cell, column, key, layout.comma);
    if (inner === undefined) entry[key] = value;
    else entry[key] = { ...(entry[key] as object | undefined), [inner]: value };
  }
  return entry;
}

const wholeNumbers = ['count', 'teeth'];
const texts = ['name', 'note'];

/** A cell as it would stand in a document: text for names, numbers where they are whole, figures with their units. */
function cellValue(cell: string, { unit, word }: Column, key: string, comma: boolean): unknown {
  if (texts.includes(key)) return cell;
  const written = comma ? cell.replace(/(\d),(\d)/g, '$1.$2') : cell;
  const bare = /^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?$/.test(written);
  if (wholeNumbers.includes(key) || word === 'active coils') return bare ? Number(written) : written;
  if (key === 'lengths' && written.includes('|'))
    return written.split('|').map((one) => cellValue(one.trim(), { at: 0, word, unit }, key, false));
  // A spread in a column with a unit: '1.2 ± 5 %', '1.1 .. 1.3', '1.2; 1.3' are of that unit.
  if (unit !== undefined && /^[+-]?[\d.]+(\s*(±|\+\/?-|\.\.|;)\s*[\d.]+)*(\s*%)?$/.test(written)) {
    const [, first = written, rest = ''] = /^(\S+)(\s*(?:±|\+\/?-).*%)$/.exec(written) ?? [];
    return rest === '' ? `${written} ${unit}` : `${first} ${unit}${rest}`;
  }
  return written;
}

/** Words in the head that mean nothing for any of the lists in the table. */
function tellUnknownWords(
  columns: readonly Column[],
  lists: readonly StockList[],
  { head, listColumn }: Layout,
  problems: Problems,
): void {
  const known = lists.flatMap((list) => [...wordsOf(kindOf(list)).keys()]);
  for (const column of columns)
    if (lists.length > 0 && column !== listColumn && !known.includes(column.word))
      problems.error(
        `line ${head}`,
        `nobody knows what the column '${column.word}' is`,
        didYouMean(column.word, known) ?? `take it out; known here: ${[...new Set(known)].join(', ')}`,
      );
}

/** Columns without which no line of a list can be read: the name, and fields that every item must have. */
function tellMissingColumns(
  columns: readonly Column[],
  lists: readonly StockList[],
  { head }: Layout,
  problems: Problems,
): void {
  const told = new Set<string>();
  for (const list of lists) {
    const kind = kindOf(list);
    const words = wordsOf(kind);
    const there = new Set(columns.map(({ word }) => words.get(word)?.[0]));
    const shape = { ...itemFields, ...kind.fields.shape } as Record<
      string,
      { safeParse(v: unknown): { success: boolean } }
    >;
    for (const [field, schema] of Object.entries(shape)) {
      if (there.has(field) || schema.safeParse(undefined).success || told.has(field)) continue;
      told.add(field);
      problems.error(
        `line ${head}`,
        `there is no column '${spoken(field)}', which ${field === 'name' ? 'every part' : `every one of the ${list}`} must have`,
        `the columns are ${columns.map(({ word }) => word).join(', ')}`,
      );
    }
  }
}

/** A problem of the document told where it stands in the table: 'line 4, free length'. */
function byLine(
  problem: Problem,
  columns: readonly Column[],
  lineOf: (list: string, index: number) => number,
): Problem {
  const at = /^(\w+)\[(\d+)\](?:\.(.*))?$/.exec(problem.path);
  if (at === null) return problem;
  const [, list = '', index = '0', field = ''] = at;
  const words = wordsOf(kindOf(list as StockList));
  const column = columns.find(({ word }) => words.get(word)?.join('.') === field.replace(/\[\d+\]$/, ''));
  const message = problem.message.replace(/\b(\w+)\[(\d+)\]/g, (whole, l: string, i: string) => {
    const line = lineOf(l, Number(i));
    return line > 0 ? `line ${line}` : whole;
  });
  const where = column?.word ?? spoken(field);
  const line = `line ${lineOf(list, Number(index))}`;
  return { ...problem, message, path: where === '' ? line : `${line}, ${where}` };
}
