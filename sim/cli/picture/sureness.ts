import type { StudyResults } from '../../tuning/results.ts';
import { ink } from './palette.ts';
import { bottomAxis, frame, inner, leftAxis, plotPage, scaleOver } from './plot.ts';
import { shortened } from './sheet.ts';
import { label, px, tag } from './svg.ts';

/** The design of which vehicles were drawn: the one to take, or the first of them. */
const drawnDesign = ({ taken, best }: StudyResults) =>
  taken?.sure ?? best.find((d) => d.sure !== undefined)?.sure;

/** Height of the row of one axle line, px. */
const high = 130;

/** Wheel loads along the crossing: the middle of all drawn vehicles as a line, from the 5th to the 95th percentile as a band. */
export function bandsSvg(results: StudyResults): string | undefined {
  const sure = drawnDesign(results);
  if (sure === undefined || sure.bands.length === 0) return undefined;
  const x = scaleOver(sure.stations, [inner.left, inner.right + 90]);
  const bottom = frame.top + sure.bands.length * high;
  const marks = sure.bands.flatMap(({ wheel, p5, p50, p95 }, row) => {
    const [top, foot] = [frame.top + row * high + 20, frame.top + (row + 1) * high - 14];
    const known = [...p5, ...p95].filter((value) => value !== null);
    const y = scaleOver([0, ...known], [foot, top]);
    const points = (values: readonly (number | null)[]) =>
      values.flatMap((value, i) =>
        value === null ? [] : [`${px(x(sure.stations[i] ?? 0))} ${px(y(value))}`],
      );
    const [low, middle, most] = [points(p5), points(p50), points(p95)];
    const area = low.length === 0 ? '' : `M${most.join('L')}L${[...low].reverse().join('L')}Z`;
    return [
      label(30, top + 4, shortened(wheel, 12), { 'font-weight': '600' }),
      ...(area === '' ? [] : [tag('path', { d: area, fill: '#b2abd2', 'fill-opacity': '0.6' })]),
      ...(middle.length === 0
        ? []
        : [tag('path', { d: `M${middle.join('L')}`, fill: 'none', stroke: '#5e3c99', 'stroke-width': 1.5 })]),
      ...leftAxis(y, 'N', '').slice(1),
      tag('path', { d: `M${px(inner.left)} ${px(y(0))}H${px(inner.right + 90)}`, stroke: ink.faint }),
    ];
  });
  const under = `Wheel loads along the crossing over ${sure.draws} drawn vehicles: middle, and from the 5th to the 95th percentile`;
  return plotPage(
    results.title,
    under,
    [...marks, ...bottomAxis(x, 'm', 'station of the vehicle', bottom)],
    bottom + frame.bottom,
  );
}

/** Which spread matters most: its share of the variance of the first goal, by itself and with all others, with intervals. */
export function spreadsSvg(results: StudyResults): string | undefined {
  const rows = drawnDesign(results)?.matters ?? [];
  if (rows.length === 0) return undefined;
  const x = scaleOver([0, 1], [inner.left + 160, inner.right + 90]);
  const bottom = frame.top + rows.length * 34 + 6;
  const marks = rows.flatMap(({ name, first, total }, i) => {
    const y = frame.top + 34 * i;
    const within = (value: number) => x(Math.min(1, Math.max(0, value)));
    return [
      label(30, y + 18, shortened(name, 34)),
      tag('rect', {
        x: x(0),
        y: y + 4,
        width: Math.max(0, within(total.value) - x(0)),
        height: 20,
        fill: '#b2abd2',
      }),
      tag('rect', {
        x: x(0),
        y: y + 10,
        width: Math.max(0, within(first.value) - x(0)),
        height: 8,
        fill: '#5e3c99',
      }),
      tag('path', {
        d: `M${px(within(total.low))} ${px(y + 14)}H${px(within(total.high))}`,
        stroke: ink.text,
        'stroke-width': 1.5,
      }),
    ];
  });
  const under = `Share of the variance of ${results.goals[0]?.title.toLowerCase() ?? 'the first goal'}: dark by itself, light with others, line its interval`;
  return plotPage(
    results.title,
    under,
    [...marks, ...bottomAxis(x, '1', 'share of the variance', bottom)],
    bottom + frame.bottom,
  );
}
