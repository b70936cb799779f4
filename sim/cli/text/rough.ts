import type { Estimate } from '../../rough/segments.ts';
import type { WheelFigures } from '../../rough/statistics.ts';
import type { RoughReport, SpeedReport } from '../rough-report.ts';
import { clean } from './clean.ts';
import { count, figure } from './figures.ts';
import { headLines } from './report.ts';
import type { Style } from './style.ts';
import { type Column, table, wrap } from './table.ts';

const columns: readonly Column[] = [
  { head: 'speed', align: 'right' },
  { head: 'RMS acceleration', align: 'right' },
  { head: 'load coefficient', align: 'right' },
  { head: 'time off', align: 'right' },
  { head: 'lift-offs per km', align: 'right' },
  { head: 'criteria', align: 'left' },
];

/** What a person sees: one line per speed, the worst axle line of each figure, and the fastest safe speed. */
export function roughText(report: RoughReport, style: Style, width: number): string {
  const { speeds, cutSays } = report;
  const blocks = [
    headLines(report, style, width),
    table(columns, speeds.map(rowOf)),
    failureLines(speeds, style, width),
    wrap(safeSentence(report), width).map(report.pass ? style.good : style.bad),
    [...wrap(basis(speeds), width), ...wrap(cutSays, width)].map(style.faint),
  ];
  return `${blocks
    .filter((block) => block.length > 0)
    .map((block) => block.join('\n'))
    .join('\n\n')}\n`;
}

/** Nothing when there is a safe speed; else why not. */
export function quietRough(report: RoughReport): string {
  return report.pass ? '' : `${safeSentence(report)}\n`;
}

function rowOf({ speed, holds, figures }: SpeedReport): string[] {
  const verdict = holds ? 'hold' : 'fail';
  const named = figure(Math.abs(speed), 'm/s');
  if (figures === null) return [named, '—', '—', '—', '—', verdict];
  const worst = (of: (wheel: WheelFigures) => Estimate, show: (value: number) => string): string => {
    const [first, ...others] = figures.wheels;
    if (first === undefined) return '—';
    const most = others.reduce((a, b) => (of(b).value > of(a).value ? b : a), first);
    const { value } = of(most);
    return value > 0 ? `${withMargin(of(most), show)} (${clean(most.wheel)})` : 'none';
  };
  return [
    named,
    withMargin(figures.acceleration, (value) => figure(value, 'm/s²')),
    worst(
      ({ coefficient }) => coefficient,
      (value) => figure(value, '1'),
    ),
    worst(
      ({ off }) => off,
      (value) => figure(value, '1'),
    ),
    worst(
      ({ liftOffs }) => liftOffs,
      (value) => String(Number(value.toPrecision(3))),
    ),
    verdict,
  ];
}

/** '1.25 m/s² ± 8 %': half of the interval, as a share. */
function withMargin({ value, low, high }: Estimate, show: (value: number) => string): string {
  const share = Math.round((100 * Math.max(high - value, value - low)) / value);
  return `${show(value)} ± ${share} %`;
}

function failureLines(speeds: readonly SpeedReport[], style: Style, width: number): string[] {
  return speeds.flatMap(({ speed, why }) =>
    why.length === 0
      ? []
      : wrap(`At ${figure(Math.abs(speed), 'm/s')}: ${why.map(clean).join('. ')}`, width).map(style.bad),
  );
}

function safeSentence({ fastest, fails, speeds }: RoughReport): string {
  if (fastest === null)
    return `No speed that was tried is safe: ${figure(Math.abs(fails ?? 0), 'm/s')} fails.`;
  const named = figure(Math.abs(fastest), 'm/s');
  if (fails !== null) return `Fastest safe speed: ${named}; ${figure(Math.abs(fails), 'm/s')} fails.`;
  return speeds.length === 1 ? `Safe at ${named}.` : `Safe at all speeds that were tried, up to ${named}.`;
}

/** What the figures stand on. */
function basis(speeds: readonly SpeedReport[]): string {
  const found = speeds.flatMap(({ figures }) => figures ?? []);
  if (found.length === 0) return 'Too little steady driving is left for any figure.';
  const least = found.reduce((a, b) => (b.segments.count < a.segments.count ? b : a));
  const { segments, time, rides } = least;
  return `Figures of the worst axle line, ± the 95 % interval. Each stands on ${count(segments.count, 'independent segment')} or more: at the least ${count(rides, 'ride')}, ${figure(time, 's')} in all, ${figure(segments.seconds, 's')} each.`;
}
