import type { SteerReport } from '../rig-report.ts';
import { clean } from './clean.ts';
import { column, figure } from './figures.ts';
import { headLines } from './report.ts';
import type { Style } from './style.ts';
import { type Column, table, wrap } from './table.ts';
import { notes, shareLines, shareVerdict } from './uses.ts';

type Study = SteerReport['steering'][number];

/** What a person sees of the steering: wheels, torque over the angle, use of the limit, cautions. */
export function steerText(report: SteerReport, style: Style, width: number): string {
  const blocks = [
    headLines(report, style, width),
    ...report.steering.flatMap((study) => [
      [style.strong(clean(study.name)), ...wrap(whereWords(study), width)],
      wheelLines(study, style),
      angleLines(study, style),
      shareLines(study.uses, style),
      shareVerdict(study.uses, style, width),
      notes('Remarks:', study.remarks, width),
      notes('Caution:', study.cautions, width),
    ]),
  ];
  return `${blocks
    .filter((block) => block.length > 0)
    .map((block) => block.join('\n'))
    .join('\n\n')}\n`;
}

/** What `--quiet` leaves: a line for each steering that is too weak. */
export function quietSteer({ steering }: SteerReport): string {
  return steering
    .flatMap(({ uses }) => uses.filter(({ use }) => use !== null && use > 1))
    .map(({ says }) => `${clean(says)}\n`)
    .join('');
}

function whereWords({ station, worst }: Study): string {
  const where =
    station === undefined
      ? 'Standing at the start'
      : `Where its wheels carry most, at station ${figure(station, 'm')}`;
  const [least, most] = column([worst.least, worst.most], 'N·m');
  return `${where}: ${least} to ${most} at the servo or motor, at ${figure(Math.abs(worst.angle), 'rad')} of steering.`;
}

const right = (head: string): Column => ({ head, align: 'right' });

function wheelLines({ wheels }: Study, style: Style): string[] {
  const cells = (of: (wheel: Study['wheels'][number]) => number, unit: string) =>
    column(wheels.map(of), unit);
  const columns = [
    ['load each', cells((w) => w.load, 'N')],
    ['scrub radius', cells((w) => w.offset, 'm')],
    ['trail', cells((w) => w.trail, 'm')],
    ['contact', cells((w) => w.length, 'm')],
    ['width', cells((w) => w.width, 'm')],
    ['square', cells((w) => w.square, 'N·m')],
    ['round', cells((w) => w.round, 'N·m')],
    ['jacking', cells((w) => w.jacking, 'N·m')],
  ] as const;
  const heads: Column[] = [{ head: 'steered', align: 'left' }, ...columns.map(([head]) => right(head))];
  const rows = wheels.map((w, i) => [
    clean(`${w.count} × ${w.line}`),
    ...columns.map(([, of]) => of[i] ?? ''),
  ]);
  const [head = '', ...lines] = table(heads, rows);
  return [style.faint(head), ...lines];
}

function angleLines({ points }: Study, style: Style): string[] {
  const shown = points.filter((_, i) => i % 4 === 0);
  const least = column(
    shown.map((p) => p.least),
    'N·m',
  );
  const most = column(
    shown.map((p) => p.most),
    'N·m',
  );
  const rows = shown.map((p, i) => [
    `${((p.angle * 180) / Math.PI).toFixed(1).replace('-', '−')}°`,
    `${((p.turn * 180) / Math.PI).toFixed(1).replace('-', '−')}°`,
    least[i] ?? '',
    most[i] ?? '',
  ]);
  const [head = '', ...lines] = table(['wheel', 'servo', 'from', 'to'].map(right), rows);
  return [style.faint(head), ...lines];
}
