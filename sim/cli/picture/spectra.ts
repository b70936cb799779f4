import { type ScaleLogarithmic, scaleLog } from 'd3-scale';
import type { RoughReport, SpectraReport } from '../rough-report.ts';
import { clean } from '../text/clean.ts';
import { figure } from '../text/figures.ts';
import { ink, shareColour } from './palette.ts';
import { shortened } from './sheet.ts';
import { label, polyline, px, tag } from './svg.ts';

/** Measures of the picture, px. */
const page = { width: 900, left: 96, right: 170, top: 96, panel: 260, gap: 74, bottom: 64 } as const;
/** Decades below the greatest density that are drawn. */
const decades = 6;

interface Line {
  readonly name: string;
  readonly density: readonly number[];
  readonly frequency: readonly number[];
}

/**
 * Power spectral densities, both axes in powers of ten: of the chassis acceleration at every speed, and of the load of
 * every axle line at the fastest safe speed (at the slowest one when none is safe).
 */
export function spectraSvg(report: RoughReport): string {
  const known = report.speeds.flatMap(({ speed, spectra }) => (spectra === null ? [] : [{ speed, spectra }]));
  const chosen = known.find(({ speed }) => speed === report.fastest) ?? known[0];
  const above = known.map(({ speed, spectra }) => accelerationLine(speed, spectra));
  const below = chosen === undefined ? [] : loadLines(chosen.spectra);
  const height = page.top + 2 * page.panel + page.gap + page.bottom;
  const lowerTop = page.top + page.panel + page.gap;
  const at = chosen === undefined ? '' : ` at ${figure(Math.abs(chosen.speed), 'm/s')}`;
  const inside = [
    tag('rect', { width: page.width, height, fill: ink.paper }),
    label(24, 34, shortened(clean(report.title), 70), { 'font-size': '20', 'font-weight': '600' }),
    label(24, 60, 'Power spectral densities on rough ground', { 'font-size': '14', fill: ink.faint }),
    ...panel(above, page.top, 'Chassis acceleration, (m/s²)²/Hz'),
    ...panel(below, lowerTop, `Load of each axle line${at}, N²/Hz`),
    label(page.left + plotWidth / 2, height - 14, 'frequency, Hz', { 'text-anchor': 'middle' }),
  ].join('\n');
  const size = { xmlns: 'http://www.w3.org/2000/svg', viewBox: `0 0 ${px(page.width)} ${px(height)}` };
  const font = { 'font-family': 'Inter, Helvetica, Arial, sans-serif', 'font-size': '12', fill: ink.text };
  return `${tag('svg', { ...size, width: page.width, height, role: 'img' }, tag('g', font, inside))}\n`;
}

const plotWidth = page.width - page.left - page.right;

const accelerationLine = (speed: number, { frequency, acceleration }: SpectraReport): Line => ({
  name: figure(Math.abs(speed), 'm/s'),
  density: acceleration,
  frequency,
});

const loadLines = ({ loads, frequency }: SpectraReport): Line[] =>
  loads.map(({ wheel, density }) => ({ name: clean(wheel), density, frequency }));

/** Colours from orange to violet, without the pale middle, and a stroke of its own for every other line. */
const strokeOf = (i: number, count: number) => ({
  stroke: shareColour(
    count === 1 ? 2 : i < count / 2 ? (0.5 * i) / count : 2 - (0.5 * (count - 1 - i)) / count,
  ),
  'stroke-width': '1.6',
  ...(i % 2 === 1 ? { 'stroke-dasharray': '6 3' } : {}),
});

function panel(lines: readonly Line[], top: number, title: string): string[] {
  const head = label(page.left, top - 12, title, { 'font-weight': '600' });
  const frequencies = lines.flatMap(({ frequency }) => [frequency[0] ?? 1, frequency.at(-1) ?? 1]);
  const greatest = lines.reduce((most, { density }) => density.reduce((a, b) => Math.max(a, b), most), 0);
  if (!(greatest > 0)) return [head, label(page.left, top + 20, 'nothing to show', { fill: ink.faint })];
  const peak = 10 ** Math.ceil(Math.log10(greatest));
  const x = scaleLog()
    .domain([Math.min(...frequencies), Math.max(...frequencies)])
    .range([page.left, page.left + plotWidth]);
  const y = scaleLog()
    .domain([peak / 10 ** decades, peak])
    .range([top + page.panel, top])
    .clamp(true);
  const drawn = lines.flatMap(({ name, density, frequency }, i) => {
    const points = density.map(
      (d, k) => [x(frequency[k] as number), y(Math.max(d, Number.MIN_VALUE))] as const,
    );
    const stroke = strokeOf(i, lines.length);
    const [left, at] = [page.left + plotWidth + 12, top + 12 + 18 * i];
    return [
      tag('path', { d: polyline(points), fill: 'none', 'stroke-linejoin': 'round', ...stroke }),
      tag('path', { d: `M${px(left)} ${px(at - 4)}h28`, fill: 'none', ...stroke }),
      label(left + 36, at, shortened(name, 16)),
    ];
  });
  return [head, ...axes(x, y, top), ...drawn];
}

/** Lines at the powers of ten, with their figures. */
function axes(
  x: ScaleLogarithmic<number, number>,
  y: ScaleLogarithmic<number, number>,
  top: number,
): string[] {
  const power = (scale: ScaleLogarithmic<number, number>): number[] => {
    const [low = 1, high = 1] = scale.domain();
    const first = Math.ceil(Math.log10(low) - 1e-9);
    const last = Math.floor(Math.log10(high) + 1e-9);
    return Array.from({ length: last - first + 1 }, (_, i) => 10 ** (first + i));
  };
  const bottom = top + page.panel;
  return [
    ...power(x).flatMap((f) => [
      tag('path', { d: `M${px(x(f))} ${px(top)}V${px(bottom)}`, stroke: ink.rule }),
      label(x(f), bottom + 18, String(Number(f.toPrecision(3))), { 'text-anchor': 'middle' }),
    ]),
    ...power(y).flatMap((d) => [
      tag('path', { d: `M${px(page.left)} ${px(y(d))}H${px(page.left + plotWidth)}`, stroke: ink.rule }),
      label(page.left - 8, y(d) + 4, d.toExponential(0).replace('e+', 'e').replace('-', '−'), {
        'text-anchor': 'end',
      }),
    ]),
  ];
}
