import { dsvFormat } from 'd3-dsv';
import { Problems } from '../../shared/problem.ts';
import { byLine, type Reading } from './csv-profile.ts';

/** How a file of separated values is to be read. */
export interface Format {
  readonly separator: 'auto' | 'comma' | 'semicolon' | 'tab';
  readonly decimal: 'auto' | 'point' | 'comma';
  /** Columns by number, counted from 1, or by their name in the header. */
  readonly stationColumn: number | string;
  readonly heightColumn: number | string;
}

/** A line of the file that holds values: its number, counted from 1, and its cells. */
interface Row {
  readonly line: number;
  readonly cells: readonly string[];
}

/** Largest figure that is taken for a station or a height, in the units of the file. */
const largest = 1e9;

const separators = { comma: ',', semicolon: ';', tab: '\t' } as const;

/**
 * Reads the stations and heights of a text, in its own units. The first line is a header if none of its figures is a
 * number, or if a column is asked for by name. Told by line: an empty cell, a blank line between others, something
 * that isn't a number, a quote without its end.
 */
export function readColumns(text: string, format: Format, where: string, problems: Problems): Reading[] {
  const separator = separatorOf(text, format.separator);
  const rows = rowsOf(text, separator, where, problems);
  const named = typeof format.stationColumn === 'string' || typeof format.heightColumn === 'string';
  const decimal = decimalOf(rows, separator, format.decimal);
  const first = rows[0];
  const header = first !== undefined && (named || !first.cells.some((cell) => isNumber(cell, decimal)));
  const head = header ? first : undefined;
  const station = columnAt('stationColumn', format.stationColumn, head, problems);
  const height = columnAt('heightColumn', format.heightColumn, head, problems);
  const data = header ? rows.slice(1) : rows;
  if (problems.failed) return [];
  if (!named) warnOfWidth(data, format, where, problems);
  return readingsOf(data, { station, height, decimal }, where, problems);
}

/** What a text of separated values looks like before anything is read from it. */
export interface Layout {
  readonly separator: string;
  readonly decimal: '.' | ',';
  /** Cells of the first line, when none of them is a number. */
  readonly header: readonly string[] | undefined;
  /** Most cells in a line. */
  readonly columns: number;
}

/** Looks a text over for what can be chosen about it: its separator, decimal sign, header and number of columns. */
export function lookAt(text: string, format: Pick<Format, 'separator' | 'decimal'>): Layout {
  const separator = separatorOf(text, format.separator);
  const rows = rowsOf(text, separator, '', new Problems());
  const decimal = decimalOf(rows, separator, format.decimal);
  const [first] = rows;
  const hasHeader = first !== undefined && !first.cells.some((cell) => isNumber(cell, decimal));
  const columns = rows.reduce((most, { cells }) => Math.max(most, cells.length), 0);
  return { separator, decimal, header: hasHeader ? first.cells : undefined, columns };
}

/** The sign between columns: as told, or the first of tab, semicolon and comma that the first line with values has. */
function separatorOf(text: string, asked: Format['separator']): string {
  if (asked !== 'auto') return separators[asked];
  const first = text.split(/\r\n|\r|\n/).find((line) => line.trim() !== '' && !isRemark(line)) ?? '';
  return ['\t', ';'].find((sign) => first.includes(sign)) ?? ',';
}

const isRemark = (line: string): boolean => line.trimStart().startsWith('#');

/** Lines with values. d3-dsv gives one row per line, blank ones included, unless a quoted cell runs over the line's end. */
function rowsOf(text: string, separator: string, where: string, problems: Problems): Row[] {
  const parsed = dsvFormat(separator).parseRows(text.replace(/^\uFEFF/, ''));
  const rows: Row[] = [];
  let blank: number | undefined;
  for (const [i, cells] of parsed.entries()) {
    const line = i + 1;
    if (cells.some((cell) => /[\r\n]/.test(cell))) {
      problems.error(
        `${where}, line ${line}`,
        'a quote is opened here and not closed on this line',
        'close or remove it',
      );
      break;
    }
    const trimmed = cells.map((cell) => cell.trim());
    if (isRemark(trimmed[0] ?? '')) continue;
    if (trimmed.length === 1 && trimmed[0] === '') {
      blank ??= line;
      continue;
    }
    if (blank !== undefined && rows.length > 0) {
      problems.warn(
        `${where}, line ${blank}`,
        'the line is blank, with values after it',
        'a straight line is laid across it',
      );
    }
    blank = undefined;
    rows.push({ line, cells: trimmed });
  }
  return rows;
}

/** The decimal sign: as told, or a comma if it separates no columns and a figure has one. */
function decimalOf(rows: readonly Row[], separator: string, asked: Format['decimal']): '.' | ',' {
  if (asked !== 'auto') return asked === 'comma' ? ',' : '.';
  const withComma = (cell: string): boolean => cell.includes(',') && isNumber(cell, ',');
  return separator !== ',' && rows.some((row) => row.cells.some(withComma)) ? ',' : '.';
}

/** The number in a cell with that decimal sign, or undefined. No thousands signs: they can't be told from decimals. */
function numberIn(cell: string, decimal: '.' | ','): number | undefined {
  if (decimal === ',' && cell.includes('.')) return undefined;
  const written = decimal === ',' ? cell.replace(',', '.') : cell;
  if (!/^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?$/.test(written)) return undefined;
  return Number(written);
}

const isNumber = (cell: string, decimal: '.' | ','): boolean => numberIn(cell, decimal) !== undefined;

/** Index of a column, counted from 0; a name is looked for in the header, whatever its case. */
function columnAt(field: string, asked: number | string, head: Row | undefined, problems: Problems): number {
  if (typeof asked === 'number') return asked - 1;
  const index = head?.cells.findIndex((cell) => cell.toLowerCase() === asked.trim().toLowerCase()) ?? -1;
  if (index < 0)
    problems.error(
      field,
      `there is no column '${asked}'`,
      `the first line has: ${head?.cells.join(', ') ?? 'nothing'}`,
    );
  return index;
}

/** Warns of more columns than are read when nobody said which: decimal commas may have been taken for separators. */
function warnOfWidth(data: readonly Row[], format: Format, where: string, problems: Problems): void {
  const wide = data.find((row) => row.cells.length > 2);
  if (wide === undefined || format.stationColumn !== 1 || format.heightColumn !== 2) return;
  problems.warn(
    `${where}, line ${wide.line}`,
    `has ${wide.cells.length} columns; the first is read as station, the second as height`,
    "say which with 'stationColumn' and 'heightColumn', or set 'separator' if these are decimal commas",
  );
}

/** Reads the two columns of every row; rows in which something is wrong are told and left out. */
function readingsOf(
  rows: readonly Row[],
  at: { station: number; height: number; decimal: '.' | ',' },
  where: string,
  problems: Problems,
): Reading[] {
  const lines = byLine(problems, where);
  const readings: Reading[] = [];
  for (const { line, cells } of rows) {
    const read = (column: number, name: string): number | undefined => {
      const cell = cells[column];
      const value = cell === undefined ? undefined : numberIn(cell, at.decimal);
      if (value !== undefined && Math.abs(value) <= largest) return value;
      if (cell === undefined)
        lines.error(line, `has no column ${column + 1} (${name})`, `it has ${cells.length}`);
      else if (cell === '') lines.error(line, `the ${name} is empty`, 'fill it in, or take the line out');
      else if (value !== undefined)
        lines.error(line, `the ${name} ${cell} is too large`, `at most ${largest}`);
      else lines.error(line, `'${cell.slice(0, 40)}' is not a number (${name})`, signHint(cell, at.decimal));
      return undefined;
    };
    const station = read(at.station, 'station');
    const height = read(at.height, 'height');
    if (station !== undefined && height !== undefined) readings.push({ line, station, height });
  }
  lines.rest();
  return readings;
}

/** What may be wrong with a cell that isn't a number. */
function signHint(cell: string, decimal: '.' | ','): string {
  if (/^[+-]?[\d.,]+$/.test(cell)) {
    return `the decimal sign here is a ${decimal === ',' ? 'comma' : 'point'}, and thousands signs aren't read`;
  }
  if (/^[+-]?[\d.,]+\s*[a-z"']+$/i.test(cell))
    return "write numbers alone; 'stationUnit' and 'heightUnit' say the unit";
  return 'write a number';
}
