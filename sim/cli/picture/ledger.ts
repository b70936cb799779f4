import { isOver } from '../../ledger/ledger.ts';
import { usedWords } from '../../ledger/words.ts';
import type { LedgerReport } from '../ledger-report.ts';
import { amount } from '../text/ledger.ts';
import { ink } from './palette.ts';
import { shortened } from './sheet.ts';
import { label, px, tag } from './svg.ts';

/** Measures of the picture, px. */
const page = { width: 900, left: 250, right: 190, top: 96, row: 22, bottom: 34 } as const;
/** Use at the right end of the bars; what is more is cut off there. */
const widest = 1.5;

/** Paper around letters that stand on a line. */
const halo = {
  stroke: ink.paper,
  'stroke-width': '3.5',
  'paint-order': 'stroke',
  'stroke-linejoin': 'round',
};

/** The ledger as bars: one for each thing with a known limit, the limit as a line, what is over it in orange. */
export function ledgerSvg({ title, ledger }: LedgerReport): string {
  const lines = ledger.lines.filter((line) => line.use !== null);
  const wide = page.width - page.left - page.right;
  const height = page.top + page.row * lines.length + page.bottom;
  const at = (use: number) => page.left + (wide * Math.min(widest, use)) / widest;
  const bars = lines.flatMap((line, i) => {
    const y = page.top + page.row * i;
    const use = line.use ?? 0;
    const fill = isOver(line) ? ink.off : ink.earth;
    const limit = amount(line, line.limit);
    return [
      label(page.left - 10, y + 15, shortened(`${line.of}, ${line.quantity}`, 38), { 'text-anchor': 'end' }),
      tag('rect', { x: page.left, y: y + 3, width: at(use) - page.left, height: page.row - 6, fill }),
      label(at(use) + 6, y + 15, `${usedWords(use)}${limit === '' ? '' : ` of ${limit}`}`, {
        fill: ink.faint,
        ...halo,
      }),
    ];
  });
  const inside = [
    tag('rect', { width: page.width, height, fill: ink.paper }),
    label(24, 34, shortened(title, 70), { 'font-size': '20', 'font-weight': '600' }),
    label(24, 60, shortened(ledger.says, 130), { fill: ink.faint }),
    tag('path', { d: `M${px(at(1))} ${px(page.top - 8)}V${px(height - 24)}`, stroke: ink.text }),
    ...bars,
    label(at(1), height - 8, 'limit', { 'text-anchor': 'middle' }),
  ].join('\n');
  const size = { xmlns: 'http://www.w3.org/2000/svg', viewBox: `0 0 ${px(page.width)} ${px(height)}` };
  const font = { 'font-family': 'Inter, Helvetica, Arial, sans-serif', 'font-size': '12', fill: ink.text };
  return `${tag('svg', { ...size, width: page.width, height, role: 'img' }, tag('g', font, inside))}\n`;
}
