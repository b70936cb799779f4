import { formatNumber } from '../../../shared/units.ts';
import type { Answer } from '../../studies/study.ts';
import type { InfluenceReport, MapReport, MattersReport, StudiedMeasure } from '../study-report.ts';
import { clean } from './clean.ts';
import { count, figure } from './figures.ts';
import { headLines } from './report.ts';
import type { Style } from './style.ts';
import { type Column, table, wrap } from './table.ts';

const joined = (blocks: readonly (readonly string[])[]): string =>
  `${blocks
    .filter((block) => block.length > 0)
    .map((block) => block.join('\n'))
    .join('\n\n')}\n`;

/** What a person sees of what matters: the measure, then one figure per row, the first `top` of them. */
export function mattersText(report: MattersReport, top: number, style: Style, width: number): string {
  const { influences, measure, worst, today, by, why, idle } = report;
  const shown = influences.slice(0, top);
  const left = influences.length - shown.length;
  const how =
    by === 'derivative'
      ? `Exact derivatives of the balance at its worst place, ${figure(worst?.value ?? 0, measure.unit)} at station ${figure(worst?.station ?? 0, 'm')}.`
      : `Differences between whole crossings${why === null ? '' : `: ${why}`}.`;
  const rest = [
    ...(left > 0 ? [`${count(left, 'more figure', 'more figures')} matter less (--top)`] : []),
    `${count(idle, 'figure')} ${idle === 1 ? 'changes' : 'change'} nothing`,
  ];
  return joined([
    headLines(report, style, width),
    todayLines(measure, today, style, width),
    influenceLines(shown, measure.unit),
    [...wrap(how, width), ...wrap(`${rest.join('; ')}.`, width)].map(style.faint),
  ]);
}

function todayLines({ title, unit }: StudiedMeasure, today: Answer, style: Style, width: number): string[] {
  const value =
    today.value === null
      ? style.bad(`none: ${clean(today.why ?? 'there is nothing to measure')}`)
      : `${style.strong(figure(today.value, unit))}${today.of === undefined ? '' : ` (${clean(today.of)})`}`;
  return wrap(`${clean(title)}: ${value}`, width);
}

function influenceLines(list: readonly InfluenceReport[], unit: string): string[] {
  if (list.length === 0) return [];
  const columns: Column[] = [
    { head: 'for each', align: 'right' },
    { head: 'change', align: 'right' },
    { head: 'today', align: 'right' },
    { head: 'figure', align: 'left' },
  ];
  return table(
    columns,
    list.map(({ name, now, unit: own, per, change }) => [
      per,
      changeText(change, unit),
      own === '1' ? formatNumber(now) : figure(now, own),
      clean(name),
    ]),
  );
}

/** '+3.1 points' of a share in per cent, '−0.4 mm'. */
function changeText(change: number, unit: string): string {
  const size =
    unit === '1' ? `${formatNumber(100 * Math.abs(change))} points` : figure(Math.abs(change), unit);
  return `${change < 0 ? '−' : '+'}${size}`;
}

/** What a person sees of a map: what was turned, today, the best point, and where all criteria hold. */
export function mapText(report: MapReport, style: Style, width: number): string {
  const { x, z, measure, best, today, evenPivot, values, holds } = report;
  const all = values.flat().length;
  const held = holds.flat().filter(Boolean).length;
  const without = values.flat().filter((v) => v === null).length;
  const side = ({ name, from, to, now, unit, steps }: MapReport['x']) =>
    `${clean(name)}: ${figure(from, unit)} to ${figure(to, unit)} in ${steps} steps, today ${figure(now, unit)}`;
  return joined([
    headLines(report, style, width),
    [side(x), side(z)].flatMap((line) => wrap(line, width)),
    todayLines(measure, today, style, width),
    best === null ? [style.bad('No point of the map has an answer.')] : bestLines(best, report, style, width),
    wrap(
      `${held === 0 ? 'Nowhere do all criteria hold' : `All criteria hold at ${count(held, 'point')} of ${all}`}${without > 0 ? `; ${count(without, 'point')} have no answer` : ''}.`,
      width,
    ).map(style.faint),
    evenPivot === null
      ? []
      : wrap(
          `At a pivot height of ${figure(evenPivot, 'm')} the drive moves no load within the bogie.`,
          width,
        ),
  ]);
}

function bestLines(
  best: NonNullable<MapReport['best']>,
  { x, z, measure }: MapReport,
  style: Style,
  width: number,
): string[] {
  const place = `${figure(best.x, x.unit)}, ${figure(best.z, z.unit)}`;
  const held = best.holds ? style.good('all criteria hold there') : style.bad('not all criteria hold there');
  return wrap(
    `Best: ${style.strong(best.value === null ? '' : figure(best.value, measure.unit))} at ${place}; ${held}.`,
    width,
  );
}
