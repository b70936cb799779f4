import { cell, nineDigits } from '../../shared/csv.ts';
import { type Dimension, formatNumber, type Showing, shownScale } from '../../shared/units.ts';
import { dimensionOf } from '../panels/figures.ts';

/** One column of a table of figures. */
export interface SheetColumn {
  readonly title: string;
  /** SI unit of its figures; '1' for shares and plain numbers, '' for words. */
  readonly unit: string;
}

/** A cell: a figure in SI, or words; null where there is nothing. */
export type SheetCell = number | string | null;

/** A chart or a list as a table of figures: what is shown, copied and written to files. */
export interface Sheet {
  readonly title: string;
  readonly columns: readonly SheetColumn[];
  readonly rows: readonly (readonly SheetCell[])[];
}

/** In which units a table is written: SI, the document's own figures; or as the window shows them. */
export type SheetUnits = 'si' | Showing;

interface Head {
  readonly text: string;
  readonly factor: number;
}

/** The largest figure of a column: its unit suits that. */
function sizeOf({ rows }: Sheet, index: number): number {
  return rows.reduce((most, row) => {
    const value = row[index];
    return typeof value === 'number' && Number.isFinite(value) ? Math.max(most, Math.abs(value)) : most;
  }, 0);
}

/** Heads with the unit of their column behind the title, 'load front (N)', and what one SI unit is in it. */
export function headsOf(sheet: Sheet, units: SheetUnits): readonly Head[] {
  return sheet.columns.map(({ title, unit }, i) => {
    if (unit === '') return { text: title, factor: 1 };
    const dimension: Dimension | undefined = dimensionOf(unit);
    if (units === 'si' || dimension === undefined || dimension === 'ratio')
      return { text: `${title} (${unit})`, factor: 1 };
    const shown = shownScale(dimension, sizeOf(sheet, i), units);
    return { text: `${title} (${shown.unit})`, factor: shown.factor };
  });
}

/** A cell for people, in the unit of its head. */
export function cellWords(value: SheetCell, { factor }: Head): string {
  if (value === null) return '–';
  return typeof value === 'number' ? formatNumber(value * factor, 4) : value;
}

/** A cell for a file: nine digits; empty where there is nothing, or nothing finite. */
function cellText(value: SheetCell, { factor }: Head): string {
  if (typeof value !== 'number') return value ?? '';
  return Number.isFinite(value) ? nineDigits(value * factor) : '';
}

/**
 * The table as CSV (RFC 4180): a line of heads with units, then its rows; names are made safe for spreadsheets, as in the
 * files of the command line.
 */
export function csvOf(sheet: Sheet, units: SheetUnits): string {
  const heads = headsOf(sheet, units);
  const lines = sheet.rows.map((row) =>
    row
      .map((value, i) => {
        const text = cellText(value, heads[i] as Head);
        return typeof value === 'string' ? cell(text) : text;
      })
      .join(','),
  );
  return `${[heads.map(({ text }) => cell(text)).join(','), ...lines].join('\r\n')}\r\n`;
}

/** The table for the clipboard: cells between tabs, as spreadsheets take them; made safe in the same way. */
export function tabbedOf(sheet: Sheet, units: SheetUnits): string {
  const heads = headsOf(sheet, units);
  const plain = (text: string) => cell(text.replace(/[\t\r\n]+/g, ' ')).replace(/^"(.*)"$/, '$1');
  const lines = sheet.rows.map((row) =>
    row
      .map((value, i) => {
        const text = cellText(value, heads[i] as Head);
        return typeof value === 'string' ? plain(text) : text;
      })
      .join('\t'),
  );
  return [heads.map(({ text }) => plain(text)).join('\t'), ...lines].join('\n');
}

/** Rows thinned evenly to `most`, first and last kept: a page lays out no more. */
export function thinned(sheet: Sheet, most: number): Sheet['rows'] {
  const { rows } = sheet;
  if (rows.length <= most) return rows;
  return Array.from(
    { length: most },
    (_, k) => rows[Math.round((k * (rows.length - 1)) / (most - 1))] as readonly SheetCell[],
  );
}
