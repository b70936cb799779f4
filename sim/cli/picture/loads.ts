import { type ScaleLinear, scaleLinear } from 'd3-scale';
import { clean } from '../text/clean.ts';
import { wrap } from '../text/table.ts';
import { groundPart } from './earth.ts';
import { ink, shareColour } from './palette.ts';
import { extentOf } from './pixels.ts';
import { columns, row, sheet, shortened } from './sheet.ts';
import { escapeXml, label, px, tag } from './svg.ts';
import { niceTop, type WheelStrip, wheelPart } from './wheel-row.ts';

/** What the picture of wheel loads shows. */
export interface LoadPicture {
  readonly title: string;
  /** One line under the title. */
  readonly subtitle: string;
  /** What the loads are drawn over: the station of each wheel's own contact, or time when the vehicle stays put. */
  readonly over: 'station' | 'time';
  /** The ground's line, m; drawn over station only. */
  readonly ground: { readonly x: ArrayLike<number>; readonly z: ArrayLike<number> };
  readonly wheels: readonly WheelStrip[];
  /** Sentences below the strips, each with its mark. */
  readonly verdicts: readonly { readonly pass: boolean; readonly asks: string; readonly says: string }[];
}

/**
 * The wheel loads of a run as an SVG document: the ground on top, below it for each axle line a band coloured by its
 * share of the standing load (hatched where it is off the ground) and its load in newtons, all over one station axis.
 * Least and greatest load of every pixel column are drawn, so that the shortest peak shows. Same data, same bytes.
 */
export function loadsSvg(picture: LoadPicture): string {
  const [from, to] = extentOf(picture.wheels.map((wheel) => wheel.x));
  const x = scaleLinear()
    // A run of a single frame has no width of its own.
    .domain(to > from ? [from, to] : [from - 0.5, from + 0.5])
    .range([sheet.left, sheet.left + columns]);
  const earth =
    picture.over === 'station' ? groundPart(picture.ground, x, sheet.top) : { height: 0, markup: '' };
  const axisAt = sheet.top + earth.height + 12;
  const rowsAt = axisAt + 36;
  const verdictsAt = rowsAt + picture.wheels.length * row;
  const verdicts = verdictsPart(picture.verdicts, verdictsAt + 16);
  const height = verdicts.bottom + 28;
  const top = niceTop(picture.wheels);
  const rows = picture.wheels.map((wheel, i) => wheelPart(wheel, x, top, rowsAt + i * row));
  const body = [
    tag('rect', { width: sheet.width, height, fill: ink.paper }),
    headPart(picture),
    legendPart(),
    axisPart(x, picture.over, axisAt, verdictsAt - sheet.gap),
    earth.markup,
    ...rows,
    ...verdicts.markup,
    label(sheet.left, height - 16, notes[picture.over], { fill: ink.faint, 'font-size': '12' }),
  ];
  return frame(picture, height, body.join('\n'));
}

const notes = {
  station: 'Each load is drawn over the station of its own wheel; all wheels of an axle line together.',
  time: 'The vehicle stays where it is, so its loads are drawn over time; all wheels of an axle line together.',
} as const;

/** The document around the picture: size, faces, patterns, and its words for those who cannot see it. */
function frame(picture: LoadPicture, height: number, body: string): string {
  const said = picture.verdicts
    .map(({ pass, asks, says }) => `${pass ? 'Pass' : 'Fail'}: ${asks}. ${says}`)
    .join(' ');
  const attributes = {
    xmlns: 'http://www.w3.org/2000/svg',
    viewBox: `0 0 ${sheet.width} ${px(height)}`,
    width: sheet.width,
    height,
    role: 'img',
    'font-family': "Inter, 'Helvetica Neue', Arial, 'DejaVu Sans', sans-serif",
    'font-size': '13',
    fill: ink.text,
  };
  const words = [
    tag('title', {}, escapeXml(clean(`Wheel loads: ${picture.title}`))),
    tag('desc', {}, escapeXml(clean(`${picture.subtitle} ${said}`))),
  ];
  return `${tag('svg', attributes, ['', ...words, patterns(), body, ''].join('\n'))}\n`;
}

/** Hatching: of the earth, and over a band where its wheel is off the ground. */
function patterns(): string {
  const hatch = (id: string, step: number, stroke: string, width: number): string =>
    tag(
      'pattern',
      { id, width: step, height: step, patternUnits: 'userSpaceOnUse', patternTransform: 'rotate(45)' },
      tag('line', { x1: 0, y1: 0, x2: 0, y2: step, stroke, 'stroke-width': width }),
    );
  return tag('defs', {}, hatch('earth', 8, ink.earth, 1) + hatch('off', 5, '#ffffff', 3));
}

function headPart({ title, subtitle }: LoadPicture): string {
  return [
    label(sheet.left, 34, shortened(clean(title), 70), { 'font-size': '18', 'font-weight': '600' }),
    label(sheet.left, 58, shortened(clean(subtitle), 110), { fill: ink.faint }),
  ].join('\n');
}

/** The colour scale of load share, with hatching for 'off the ground'. */
function legendPart(): string {
  const [left, top, width, height] = [sheet.width - sheet.right - 260, 20, 260, 12];
  const cells = Array.from({ length: 40 }, (_, i) =>
    tag('rect', {
      x: left + (i * width) / 40,
      y: top,
      width: width / 40 + 0.2,
      height,
      fill: shareColour((i + 0.5) / 20),
    }),
  );
  const off =
    tag('rect', { x: left - 34, y: top, width: 26, height, fill: shareColour(0) }) +
    tag('rect', { x: left - 34, y: top, width: 26, height, fill: 'url(#off)' });
  const ticks = ['0', '½', '1', '1½', '2'].map((text, i) =>
    label(left + (i * width) / 4, top + 27, text, {
      'text-anchor': 'middle',
      fill: ink.faint,
      'font-size': '12',
    }),
  );
  const says = [
    label(left - 21, top + 27, 'off', { 'text-anchor': 'middle', fill: ink.faint, 'font-size': '12' }),
    label(left - 42, top + 10, 'share of standing load', {
      'text-anchor': 'end',
      fill: ink.faint,
      'font-size': '12',
    }),
  ];
  return [...cells, off, ...ticks, ...says].join('');
}

/** The axis, with faint lines down through all rows. */
function axisPart(
  x: ScaleLinear<number, number>,
  over: LoadPicture['over'],
  y: number,
  bottom: number,
): string {
  const [from = 0, to = 1] = x.domain();
  const milli = over === 'station' && to - from <= 10;
  const title = over === 'time' ? 'time, s' : `station, ${milli ? 'mm' : 'm'}`;
  const ticks = x.ticks(10).map((tick) => {
    const at = x(tick);
    const line = tag('line', { x1: at, y1: y, x2: at, y2: bottom, stroke: ink.rule, 'stroke-width': 0.6 });
    const value = `${Number((milli ? tick * 1000 : tick).toPrecision(9))}`;
    return (
      line +
      label(at, y + 16, value, {
        'text-anchor': 'middle',
        fill: ink.faint,
        'font-size': '12',
        'paint-order': 'stroke',
        stroke: ink.paper,
        'stroke-width': 4,
      })
    );
  });
  return [
    ...ticks,
    label(sheet.left - 8, y + 16, title, { 'text-anchor': 'end', fill: ink.faint, 'font-size': '12' }),
  ].join('\n');
}

/** A verdict's lines below each other: what was asked, then the answer. */
interface VerdictBlock {
  readonly pass: boolean;
  readonly asks: readonly string[];
  readonly says: readonly string[];
}

/** Letters on a line of the sheet: 13 px letters are 6.6 px wide on average, bold ones 7.2 px. */
const [LINE, BOLD_LINE] = [Math.floor(columns / 6.6), Math.floor(columns / 7.2)];
const LINE_HEIGHT = 17;

function blockOf({ pass, asks, says }: LoadPicture['verdicts'][number]): VerdictBlock {
  return { pass, asks: wrap(clean(asks), BOLD_LINE), says: wrap(clean(says), LINE) };
}

const heightOf = ({ asks, says }: VerdictBlock): number => (asks.length + says.length) * LINE_HEIGHT + 6;

function verdictPart({ pass, asks, says }: VerdictBlock, y: number): string {
  const mark = { 'text-anchor': 'end', fill: pass ? ink.text : '#b34700', 'font-weight': '600' };
  const lines = [
    ...asks.map((line) => [line, { 'font-weight': '600' }] as const),
    ...says.map((line) => [line, { fill: ink.faint }] as const),
  ];
  return [
    label(sheet.left - 8, y, pass ? '✓ pass' : '✕ fail', mark),
    ...lines.map(([line, look], i) => label(sheet.left + 6, y + i * LINE_HEIGHT, line, look)),
  ].join('');
}

/** Verdicts below each other from a height on, and the height at which they end. */
function verdictsPart(
  verdicts: LoadPicture['verdicts'],
  top: number,
): { readonly markup: string[]; readonly bottom: number } {
  let y = top;
  const markup = verdicts.map((verdict) => {
    const block = blockOf(verdict);
    const part = verdictPart(block, y);
    y += heightOf(block);
    return part;
  });
  return { markup, bottom: y };
}
