import { type ScaleLinear, scaleLinear } from 'd3-scale';
import { clean } from '../text/clean.ts';
import { column, count, figure } from '../text/figures.ts';
import { bandOf, offColumns } from './band.ts';
import { ink, shareColour } from './palette.ts';
import { type Envelope, envelopeOf, extentOf, linesOf } from './pixels.ts';
import { columns, sheet, shortened } from './sheet.ts';
import { escapeXml, label, polyline, tag } from './svg.ts';

/** One axle line in the picture. */
export interface WheelStrip {
  readonly name: string;
  readonly axle: number;
  /** Wheels on the line. */
  readonly count: number;
  /** Standing load of the line, N. */
  readonly standing: number;
  /** Abscissa of each frame: the wheel's own station, m, or the time, s. */
  readonly x: ArrayLike<number>;
  /** Load of the line in each frame, N. */
  readonly load: ArrayLike<number>;
  /** Share of the run's time off the ground, 0 to 1. */
  readonly timeOff: number;
}

/** Head line, band and strip of one axle line. */
export function wheelPart(wheel: WheelStrip, x: ScaleLinear<number, number>, top: number, y: number): string {
  const [from = 0, to = 1] = x.domain();
  const envelope = envelopeOf(wheel.x, wheel.load, from, to, columns);
  const band = y + sheet.head;
  const strip = band + sheet.band + 6;
  return tag(
    'g',
    {},
    ['', headOf(wheel, y), bandPart(wheel, envelope, band), stripPart(wheel, envelope, top, strip), ''].join(
      '\n',
    ),
  );
}

function headOf(wheel: WheelStrip, y: number): string {
  const [least, greatest] = extentOf([wheel.load]);
  const off = wheel.timeOff > 0 ? `, off the ground ${figure(wheel.timeOff, '1')} of the time` : '';
  const [stood, low, high] = column([wheel.standing, least, greatest], 'N');
  const says = `standing ${stood}, least ${low}, greatest ${high}${off}`;
  const name = escapeXml(shortened(clean(wheel.name), 60));
  const line = ` · axle ${wheel.axle} · ${count(wheel.count, 'wheel')}`;
  return [
    tag(
      'text',
      { x: sheet.left, y: y + 13 },
      tag('tspan', { 'font-weight': '600' }, name) + tag('tspan', { fill: ink.faint }, line),
    ),
    label(sheet.width - sheet.right, y + 13, says, { 'text-anchor': 'end', fill: ink.faint }),
  ].join('');
}

/** The band: load share as colour, hatched where the wheel is off the ground. */
function bandPart(wheel: WheelStrip, envelope: Envelope, y: number): string {
  const rect = (from: number, to: number, fill: string): string =>
    tag('rect', { x: sheet.left + from, y, width: to - from, height: sheet.band, fill });
  const shares = bandOf(envelope, wheel.standing).map(({ from, to, share }) =>
    rect(from, to, shareColour(share)),
  );
  const off = offColumns(envelope).map(({ from, to }) => rect(from, to, 'url(#off)'));
  const outline = tag('rect', {
    x: sheet.left,
    y,
    width: columns,
    height: sheet.band,
    fill: 'none',
    stroke: ink.rule,
  });
  return [...shares, ...off, outline].join('');
}

/** The load in newtons, with its zero and its standing load. */
function stripPart(wheel: WheelStrip, envelope: Envelope, top: number, y: number): string {
  const scale = scaleLinear()
    .domain([0, top])
    .range([y + sheet.strip, y]);
  const level = (value: number, dash: string): string =>
    tag('line', {
      x1: sheet.left,
      x2: sheet.left + columns,
      y1: scale(value),
      y2: scale(value),
      stroke: dash === '' ? ink.rule : ink.faint,
      'stroke-dasharray': dash,
      'stroke-width': 0.8,
    });
  const paths = linesOf(envelope).map((line) =>
    tag('path', {
      d: polyline(line.map(([c, value]) => [sheet.left + c, scale(value)])),
      fill: 'none',
      stroke: ink.text,
      'stroke-width': 1.2,
      'stroke-linejoin': 'round',
    }),
  );
  const ticks = [0, top].map((value) =>
    label(sheet.left - 8, scale(value) + 4, figure(value, 'N'), {
      'text-anchor': 'end',
      fill: ink.faint,
      'font-size': '12',
    }),
  );
  return [level(0, ''), level(top, ''), level(wheel.standing, '2 4'), ...paths, ...ticks].join('\n');
}

/** Upper end of the load scale, common to all strips so that their heights compare: a round number above every load. */
export function niceTop(wheels: readonly WheelStrip[]): number {
  const [, greatest] = extentOf(wheels.map((wheel) => wheel.load));
  const standing = Math.max(...wheels.map((wheel) => wheel.standing));
  return (
    scaleLinear()
      .domain([0, Math.max(greatest, standing, 1e-9)])
      .nice(4)
      .domain()[1] ?? 1
  );
}
