import type { LedgerLine } from '../../../shared/report.ts';
import { formatNumber } from '../../../shared/units.ts';
import { isOver, nameOf } from '../../ledger/ledger.ts';
import { usedWords } from '../../ledger/words.ts';
import { sentence } from '../../report/words.ts';
import type { AlternativeReport, LedgerReport, MassReport, StoredReport } from '../ledger-report.ts';
import { clean } from './clean.ts';
import { figure } from './figures.ts';
import { endSentence, headLines } from './report.ts';
import type { Style } from './style.ts';
import { type Column, table, wrap } from './table.ts';

const joined = (blocks: readonly (readonly string[])[]): string =>
  `${blocks
    .filter((block) => block.length > 0)
    .map((block) => block.join('\n'))
    .join('\n\n')}\n`;

/** What a person sees of a ledger: who, one thing per row, what is not known, stored energy, the verdict, what would help. */
export function ledgerText(report: LedgerReport, style: Style, width: number): string {
  const { ledger, first, end, alternatives, stored } = report;
  const over = first !== null || ledger.lines.some(isOver);
  return joined([
    headLines(report, style, width),
    lineRows(ledger.lines, style),
    unknownLines(ledger.lines, style, width),
    storedLines(stored, width),
    end.kind === 'arrived' ? [] : wrap(clean(endSentence(end)), width),
    wrap(clean(ledger.says), width).map(over ? style.bad : style.good),
    alternativeLines(alternatives, style, width),
  ]);
}

/** What `--quiet` leaves: the verdict, when something gives. */
export function quietLedger({ ledger, pass }: LedgerReport): string {
  return pass ? '' : `${clean(ledger.says)}\n`;
}

const columns: readonly Column[] = [
  { head: 'use', align: 'right' },
  { head: 'sort', align: 'left' },
  { head: 'of', align: 'left' },
  { head: 'what', align: 'left' },
  { head: 'carries', align: 'right' },
  { head: 'limit', align: 'right' },
  { head: 'worst at', align: 'right' },
  { head: 'limit known as', align: 'left' },
];

const known = {
  given: '',
  measured: 'measured',
  estimate: 'estimate',
  typical: 'typical, test yours',
} as const;

/** Everything with a known limit, the nearest to it first. */
function lineRows(lines: readonly LedgerLine[], style: Style): string[] {
  const rated = lines.filter(({ use }) => use !== null);
  if (rated.length === 0) return [];
  const rows = rated.map((line) => [
    usedWords(line.use ?? 0),
    line.sort,
    clean(line.of),
    line.quantity,
    amount(line, line.carries),
    amount(line, line.limit),
    line.moment === undefined ? '' : figure(line.moment.station, 'm'),
    knownText(line),
  ]);
  const shown = columns.map((_, c) => rows.some((row) => row[c] !== ''));
  const [head = '', ...texts] = table(
    columns.filter((_, c) => shown[c]),
    rows.map((row) => row.filter((_, c) => shown[c])),
  );
  return [
    style.faint(head),
    ...texts.map((text, i) => (isOver(rated[i] as LedgerLine) ? style.bad(text) : text)),
  ];
}

/** A figure of a line; a coefficient of friction is no percentage, and the end of the balance has none. */
export function amount({ sort, unit }: LedgerLine, value: number | null): string {
  if (value === null || sort === 'balance') return '';
  return sort === 'grip' ? formatNumber(value) : figure(value, unit);
}

function knownText({ how, spread }: LedgerLine): string {
  if (how === undefined || how === 'given') return '';
  return spread !== undefined && spread > 0 ? `${known[how]} ± ${figure(spread, '1')}` : known[how];
}

/** What nobody knows the limit of, with what it carries. */
function unknownLines(lines: readonly LedgerLine[], style: Style, width: number): string[] {
  const unknown = lines.filter(({ use }) => use === null);
  if (unknown.length === 0) return [];
  const said = unknown.map(({ sort, of, quantity, carries, unit }) =>
    clean(`${sort} ${of} (${quantity} ${figure(carries, unit)})`),
  );
  return wrap(`Limit not known, and so not judged: ${said.join(', ')}.`, width).map(style.faint);
}

/** Loaded springs and bars, the one that stores most first. */
function storedLines(stored: readonly StoredReport[], width: number): string[] {
  const most = [...stored].sort((a, b) => b.all - a.all)[0];
  if (most === undefined) return [];
  return wrap(clean(`Stored energy: ${most.of}: ${most.says}.`), width);
}

/** What would help, side by side. */
function alternativeLines(list: readonly AlternativeReport[], style: Style, width: number): string[] {
  if (list.length === 0) return [];
  const heads: Column[] = [
    { head: 'what would help', align: 'left' },
    { head: 'top speed', align: 'right' },
    { head: 'mass', align: 'right' },
    { head: 'then', align: 'right' },
    { head: 'nearest to its limit', align: 'left' },
  ];
  const rows = list.map(({ title, topSpeed, mass, first }) => [
    title,
    topSpeed === null ? '–' : figure(topSpeed, 'm/s'),
    figure(mass, 'kg'),
    first === null ? '–' : usedWords(first.use ?? 0),
    first === null ? 'nothing known' : clean(`${first.sort} ${first.of}`),
  ]);
  const [head = '', ...lines] = table(heads, rows);
  return [
    style.faint(head),
    ...lines.flatMap((line, i) => {
      const { says, holds } = list[i] as AlternativeReport;
      return [
        holds ? style.good(line) : line,
        ...wrap(clean(sentence(says)), width - 2).map((text) => style.faint(`  ${text}`)),
      ];
    }),
  ];
}

/** What a person sees of the greatest mass. */
export function massText(report: MassReport, style: Style, width: number): string {
  return joined([
    headLines(report, style, width),
    wrap(clean(massSentence(report)), width).map(report.pass ? style.good : style.bad),
    ...report.unhelped.map((line) => wrap(clean(`No mass helps: ${line.says}`), width).map(style.bad)),
    wrap(spreadText(report), width).map(style.faint),
    curveLines(report, style),
  ]);
}

/** What `--quiet` leaves: the sentence, when it is too heavy. */
export const quietMass = (report: MassReport): string =>
  report.pass
    ? ''
    : [massSentence(report), ...report.unhelped.map((line) => `No mass helps: ${line.says}`)]
        .map((line) => `${clean(line)}\n`)
        .join('');

function massSentence({ greatest, mass, margin, setBy, most, least }: MassReport): string {
  const by = setBy === null ? '' : ` Set by ${nameOf(setBy)}. ${sentence(setBy.says)}`;
  if (greatest === null)
    return `No mass holds: down to ${figure(least, 'kg')} something that depends on mass gives.${by}`;
  if (setBy === null)
    return `It may come out at ${figure(most, 'kg')} and more: nothing with a known limit sets it up to there.`;
  const share = `${figure(Math.abs(margin ?? 0), '1')} ${(margin ?? 0) < 0 ? 'lighter than' : 'above'} today's ${figure(mass, 'kg')}`;
  return `It may come out at ${figure(greatest, 'kg')}, ${share}.${by}`;
}

function spreadText({ spread, factor }: MassReport): string {
  const by =
    factor === null
      ? ''
      : ` At the greatest mass all mass items are ${factor.toPrecision(5)} times as heavy.`;
  return spread === 'items'
    ? `All mass items grow or shrink alike, with their inertia; wheels and parts of the drive line weigh what they weigh.${by}`
    : `More mass goes to x ${figure(spread.x, 'm')}, z ${figure(spread.z, 'm')} of the chassis as drawn; less comes off all mass items alike.${by}`;
}

function curveLines({ curve, mass }: MassReport, style: Style): string[] {
  if (curve === undefined) return [];
  const rows = curve.points.map((point) => [
    figure(point.mass, 'kg'),
    figure(point.size, curve.unit),
    point.setBy === null ? 'nothing up to that size' : clean(`${point.setBy.sort} ${point.setBy.of}`),
    Math.abs(point.mass - mass) < 1e-6 * mass ? 'today' : '',
  ]);
  const [head = '', ...lines] = table(
    [
      { head: 'mass', align: 'right' },
      { head: `largest ${curve.title.toLowerCase()}`, align: 'right' },
      { head: 'set by', align: 'left' },
      { head: '', align: 'left' },
    ],
    rows,
  );
  const there =
    curve.there === null ? [] : [style.faint(`Today's ground has ${figure(curve.there, curve.unit)}.`)];
  return [style.faint(head), ...lines, ...there];
}
