import type { LedgerLine } from '../../../shared/report.ts';
import { clean } from './clean.ts';
import { figure } from './figures.ts';
import type { Style } from './style.ts';
import { type Column, table, wrap } from './table.ts';

const columns: readonly Column[] = [
  { head: 'use', align: 'right' },
  { head: 'part', align: 'left' },
  { head: 'carries', align: 'right' },
  { head: 'limit', align: 'right' },
];

/** Parts with their use of the limit, the nearest to it first; unknown limits come last and say so. */
export function shareLines(uses: readonly LedgerLine[], style: Style): string[] {
  const sorted = [...uses].sort((a, b) => (b.use ?? -1) - (a.use ?? -1));
  const rows = sorted.map(({ use, of, quantity, carries, limit, unit }) => [
    use === null ? 'unknown' : shareText(use),
    clean(`${of} (${quantity})`),
    figure(carries, unit),
    limit === null ? 'not known' : figure(limit, unit),
  ]);
  const [head = '', ...lines] = table(columns, rows);
  return [style.faint(head), ...lines.map((line, i) => ((sorted[i]?.use ?? 0) > 1 ? style.bad(line) : line))];
}

const shareText = (use: number): string => (use > 100 ? 'over 10 000 %' : figure(use, '1'));

/** One sentence: what is past its limit, or that nothing known is, and how many limits are not known. */
export function shareVerdict(uses: readonly LedgerLine[], style: Style, width: number): string[] {
  const over = uses.filter(({ use }) => use !== null && use > 1);
  const unknown = uses.filter(({ use }) => use === null).map(({ of }) => clean(of));
  const known =
    over.length > 0
      ? wrap(`Past its limit: ${over.map(({ says }) => clean(says)).join('; ')}.`, width).map(style.bad)
      : unknown.length === uses.length
        ? []
        : wrap('Nothing whose limit is known is past it.', width);
  const open =
    unknown.length === 0 ? [] : wrap(`Not known, so not taken for safe: ${unknown.join(', ')}.`, width);
  return [...known, ...open.map(style.strong)];
}

/** Cautions and remarks as paragraphs with a head. */
export function notes(head: string, texts: readonly string[], width: number): string[] {
  if (texts.length === 0) return [];
  return [
    head,
    ...texts.flatMap((text) => wrap(clean(text), width - 2).map((l, i) => `${i === 0 ? '- ' : '  '}${l}`)),
  ];
}
