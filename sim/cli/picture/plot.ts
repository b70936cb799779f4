import { type ScaleLinear, scaleLinear } from 'd3-scale';
import { figure } from '../text/figures.ts';
import { ink } from './palette.ts';
import { label, px, tag } from './svg.ts';

/** Measures of a plot, px. */
export const frame = { width: 900, height: 620, left: 110, right: 190, top: 84, bottom: 70 } as const;

export const inner = {
  left: frame.left,
  right: frame.width - frame.right,
  top: frame.top,
  bottom: frame.height - frame.bottom,
} as const;

/** A page with a title, a line below it, and marks. */
export function plotPage(
  title: string,
  under: string,
  marks: readonly string[],
  height: number = frame.height,
): string {
  const inside = [
    tag('rect', { width: frame.width, height, fill: ink.paper }),
    label(30, 34, title, { 'font-size': '20', 'font-weight': '600' }),
    label(30, 58, under, { 'font-size': '14', fill: ink.faint }),
    ...marks,
  ].join('\n');
  const size = { xmlns: 'http://www.w3.org/2000/svg', viewBox: `0 0 ${px(frame.width)} ${px(height)}` };
  const font = { 'font-family': 'Inter, Helvetica, Arial, sans-serif', 'font-size': '12', fill: ink.text };
  return `${tag('svg', { ...size, width: frame.width, height, role: 'img' }, tag('g', font, inside))}\n`;
}

/** A scale over values, a little wider than they are; of equal values around them. */
export function scaleOver(
  values: readonly number[],
  range: readonly [number, number],
): ScaleLinear<number, number> {
  // Not by spread arguments: samples may be many.
  const least = values.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY);
  const most = values.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY);
  const ends = least <= most ? [least, most] : [0, 1];
  const [from = 0, to = 1] = ends;
  const room = to > from ? 0.04 * (to - from) : 0.5 * Math.max(Math.abs(from), 1e-9);
  return scaleLinear()
    .domain([from - room, to + room])
    .range([...range]);
}

/** The axis at the bottom with figures in their unit. */
export function bottomAxis(x: ScaleLinear<number, number>, unit: string, name: string, y: number): string[] {
  return [
    tag('path', { d: `M${px(inner.left)} ${px(y)}H${px(inner.right)}`, stroke: ink.faint }),
    ...x
      .ticks(6)
      .flatMap((value) => [
        tag('path', { d: `M${px(x(value))} ${px(y)}v5`, stroke: ink.faint }),
        label(x(value), y + 19, figure(value, unit), { 'text-anchor': 'middle', fill: ink.faint }),
      ]),
    label((inner.left + inner.right) / 2, y + 44, name, { 'text-anchor': 'middle' }),
  ];
}

/** The axis on the left. */
export function leftAxis(y: ScaleLinear<number, number>, unit: string, name: string): string[] {
  return [
    tag('path', { d: `M${px(inner.left)} ${px(inner.top)}V${px(inner.bottom)}`, stroke: ink.faint }),
    ...y
      .ticks(6)
      .flatMap((value) => [
        tag('path', { d: `M${px(inner.left)} ${px(y(value))}h-5`, stroke: ink.faint }),
        label(inner.left - 9, y(value) + 4, figure(value, unit), { 'text-anchor': 'end', fill: ink.faint }),
      ]),
    label(30, inner.top - 8, name),
  ];
}
