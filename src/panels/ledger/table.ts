import { cell } from '../../../shared/csv.ts';
import type { LedgerLine } from '../../../shared/report.ts';

const heads = [
  'sort',
  'of',
  'quantity',
  'use',
  'carries',
  'limit',
  'margin',
  'unit',
  'how',
  'spread',
  'time (s)',
  'station (m)',
  'gives at (m)',
  'says',
] as const;

const figure = (value: number | null | undefined): string =>
  value === null || value === undefined ? '' : String(Number(value.toPrecision(9)));

/** Left of the limit, SI; null where it is not known. */
export const marginOf = ({ limit, carries }: LedgerLine): number | null =>
  limit === null ? null : limit - carries;

/** The lines of a ledger as cells, the heads first; all values in SI, cells of what is not known empty. */
export function ledgerCells(lines: readonly LedgerLine[]): readonly (readonly string[])[] {
  return [
    heads,
    ...lines.map((line) => [
      line.sort,
      line.of,
      line.quantity,
      figure(line.use),
      figure(line.carries),
      figure(line.limit),
      figure(marginOf(line)),
      line.unit,
      line.how ?? '',
      figure(line.spread),
      figure(line.moment?.time),
      figure(line.moment?.station),
      figure(line.gives?.station),
      line.says,
    ]),
  ];
}

/** Figures are ours and may begin with a minus; words are the document's own, and no spreadsheet may take them for formulas. */
const safe = (text: string): string => (text !== '' && Number.isFinite(Number(text)) ? text : cell(text));

/** The same as CSV. */
export const ledgerCsv = (lines: readonly LedgerLine[]): string =>
  `${ledgerCells(lines)
    .map((row) => row.map(safe).join(','))
    .join('\n')}\n`;

const plain = (text: string): string => (/^[=+\-@\uff1d\uff0b\uff0d\uff20]/.test(text) ? safe(text) : text);

/** The same with tabs, as spreadsheets take it from the clipboard. */
export const ledgerTabs = (lines: readonly LedgerLine[]): string =>
  ledgerCells(lines)
    .map((row) => row.map((text) => plain(text.replace(/[\t\r\n]+/g, ' '))).join('\t'))
    .join('\n');
