import { type ScaleLinear, scaleLinear } from 'd3-scale';
import type { MapReport, SideReport } from '../study-report.ts';
import { figure } from '../text/figures.ts';
import { ink } from './palette.ts';
import { label, px, tag } from './svg.ts';

/** Measures of the picture, px. */
const page = { width: 900, left: 96, right: 190, top: 92, bottom: 74, most: 640, least: 240 } as const;
/** Bands of colour between the least and the greatest value. */
const BANDS = 8;

/**
 * The map as a picture: bands of colour, the outline of where all criteria hold, today's place, the best point, and the
 * pivot height at which the drive moves no load. The map of a pivot is drawn to one scale both ways.
 */
export function mapSvg(report: MapReport): string {
  const { x, z, plane } = report;
  const wide = page.width - page.left - page.right;
  const true_ = plane.kind === 'pivot' ? (wide * (z.to - z.from)) / (x.to - x.from) : (wide * 2) / 3;
  const high = Math.min(page.most, Math.max(page.least, true_));
  const frame: Frame = {
    x: scaleLinear()
      .domain([x.from, x.to])
      .range([page.left, page.left + wide]),
    z: scaleLinear()
      .domain([z.from, z.to])
      .range([page.top + high, page.top]),
    columns: edges(x, [page.left, page.left + wide]),
    rows: edges(z, [page.top + high, page.top]),
  };
  const height = page.top + high + page.bottom;
  const inside = [
    tag('rect', { width: page.width, height, fill: ink.paper }),
    label(page.left, 34, report.title, { 'font-size': '20', 'font-weight': '600' }),
    label(page.left, 60, `${report.measure.title} over ${report.plane.name}`, {
      'font-size': '14',
      fill: ink.faint,
    }),
    ...fieldMarks(report, frame),
    ...axisMarks(report, frame),
    ...placeMarks(report, frame),
    ...legendMarks(report),
  ].join('\n');
  const size = { xmlns: 'http://www.w3.org/2000/svg', viewBox: `0 0 ${px(page.width)} ${px(height)}` };
  const font = { 'font-family': 'Inter, Helvetica, Arial, sans-serif', 'font-size': '12', fill: ink.text };
  return `${tag('svg', { ...size, width: page.width, height, role: 'img' }, tag('g', font, inside))}\n`;
}

interface Frame {
  readonly x: ScaleLinear<number, number>;
  readonly z: ScaleLinear<number, number>;
  /** Edges of the cells around the points, px. */
  readonly columns: readonly number[];
  readonly rows: readonly number[];
}

/** Edges of cells around points that sit at both ends and between: half cells at the ends. */
function edges({ steps }: SideReport, [from, to]: readonly [number, number]): number[] {
  const step = (to - from) / (steps - 1);
  return Array.from({ length: steps + 1 }, (_, i) => Math.min(Math.max(i - 0.5, 0), steps - 1) * step + from);
}

/** Least and greatest value of the map. */
function extent({ values }: MapReport): [number, number] {
  const all = values.flat().filter((v) => v !== null);
  return all.length === 0 ? [0, 1] : [Math.min(...all), Math.max(...all)];
}

function bandOf(value: number, [least, most]: readonly [number, number]): number {
  return most > least ? Math.min(BANDS - 1, Math.floor((BANDS * (value - least)) / (most - least))) : 0;
}

/** From orange, which is light, to violet, as the bands of loads are (C. Brewer, ColorBrewer 2.0, pair PuOr). */
function colourOf(band: number, better: 'more' | 'less'): string {
  const ramp = ['#e66101', '#f28a35', '#fdb863', '#f7d8a8', '#d9d5e4', '#b2abd2', '#8873b0', '#5e3c99'];
  return (better === 'more' ? ramp[band] : ramp[BANDS - 1 - band]) ?? ink.off;
}

/** Cells of equal band in a row as one rectangle; then the outline of where all criteria hold. */
function fieldMarks(report: MapReport, { columns, rows }: Frame): string[] {
  const range = extent(report);
  const marks: string[] = [];
  report.values.forEach((row, r) => {
    const [bottom, top] = [rows[r] as number, rows[r + 1] as number];
    for (let c = 0; c < row.length; ) {
      const band = row[c] === null ? -1 : bandOf(row[c] as number, range);
      let to = c + 1;
      while (to < row.length && (row[to] === null ? -1 : bandOf(row[to] as number, range)) === band) to++;
      const [left, right] = [columns[c] as number, columns[to] as number];
      const fill = band < 0 ? 'url(#none)' : colourOf(band, report.measure.better);
      marks.push(
        tag('rect', {
          x: left,
          y: top,
          width: right - left,
          height: bottom - top,
          fill,
          'shape-rendering': 'crispEdges',
        }),
      );
      c = to;
    }
  });
  const hatch = tag('path', { d: 'M0 6L6 0', stroke: ink.rule, 'stroke-width': '1' });
  const pattern = tag('pattern', { id: 'none', width: 6, height: 6, patternUnits: 'userSpaceOnUse' }, hatch);
  const outline = outlineOf(report.holds, columns, rows);
  const line = {
    d: outline,
    fill: 'none',
    stroke: ink.text,
    'stroke-width': 2.2,
    'stroke-linejoin': 'round',
  };
  return [tag('defs', {}, pattern), ...marks, ...(outline === '' ? [] : [tag('path', line)])];
}

/** The edges between cells where all criteria hold and others, and those at the rim of the map. */
function outlineOf(holds: MapReport['holds'], columns: readonly number[], rows: readonly number[]): string {
  const at = (c: number, r: number) => holds[r]?.[c] === true;
  const pieces: string[] = [];
  for (let r = 0; r < rows.length; r++)
    for (let c = 0; c < columns.length; c++) {
      const [x, z] = [columns[c] as number, rows[r] as number];
      if (r < rows.length - 1 && at(c - 1, r) !== at(c, r))
        pieces.push(`M${px(x)} ${px(z)}V${px(rows[r + 1] as number)}`);
      if (c < columns.length - 1 && at(c, r - 1) !== at(c, r))
        pieces.push(`M${px(x)} ${px(z)}H${px(columns[c + 1] as number)}`);
    }
  return pieces.join('');
}

function axisMarks({ x, z }: MapReport, frame: Frame): string[] {
  const [left = 0, right = 0] = frame.x.range();
  const [bottom = 0, top = 0] = frame.z.range();
  const box = { x: left, y: top, width: right - left, height: bottom - top, fill: 'none', stroke: ink.rule };
  return [
    tag('rect', box),
    ...frame.x.ticks(6).flatMap((value) => [
      tag('path', { d: `M${px(frame.x(value))} ${px(bottom)}v5`, stroke: ink.faint }),
      label(frame.x(value), bottom + 19, figure(value, x.unit), {
        'text-anchor': 'middle',
        fill: ink.faint,
      }),
    ]),
    ...frame.z
      .ticks(6)
      .flatMap((value) => [
        tag('path', { d: `M${px(left)} ${px(frame.z(value))}h-5`, stroke: ink.faint }),
        label(left - 9, frame.z(value) + 4, figure(value, z.unit), { 'text-anchor': 'end', fill: ink.faint }),
      ]),
    label((left + right) / 2, bottom + 44, x.name, { 'text-anchor': 'middle' }),
    label(left - 80, top - 10, z.name),
  ];
}

/** Paper around letters on the field. */
const halo = { stroke: ink.paper, 'stroke-width': 3.5, 'paint-order': 'stroke', 'stroke-linejoin': 'round' };

/** Today as a cross, the best point as a ring, and the height at which the drive moves no load as a dashed line. */
function placeMarks({ x, z, best, evenPivot }: MapReport, frame: Frame): string[] {
  const within = ({ from, to }: SideReport, value: number) => value >= from && value <= to;
  const marks: string[] = [];
  if (evenPivot !== null && within(z, evenPivot)) {
    const [left = 0, right = 0] = frame.x.range();
    const y = frame.z(evenPivot);
    marks.push(
      tag('path', { d: `M${px(left)} ${px(y)}H${px(right)}`, stroke: ink.text, 'stroke-dasharray': '6 4' }),
      label(right + 8, y + 4, 'drive moves no load'),
    );
  }
  if (within(x, x.now) && within(z, z.now)) {
    const [cx, cy] = [frame.x(x.now), frame.z(z.now)];
    const d = `M${px(cx - 7)} ${px(cy)}H${px(cx + 7)}M${px(cx)} ${px(cy - 7)}V${px(cy + 7)}`;
    marks.push(
      tag('path', { d, stroke: ink.text, 'stroke-width': 2 }),
      label(cx + 10, cy - 8, 'today', halo),
    );
  }
  if (best !== null) {
    const [cx, cy] = [frame.x(best.x), frame.z(best.z)];
    marks.push(
      tag('circle', { cx, cy, r: 7, fill: ink.paper, stroke: ink.text, 'stroke-width': 2 }),
      label(cx + 11, cy + 4, 'best', halo),
    );
  }
  return marks;
}

/** The bands with their figures, from the greatest down; what the outline and the hatching mean. */
function legendMarks(report: MapReport): string[] {
  const [least, most] = extent(report);
  const { better, unit } = report.measure;
  const left = page.width - page.right + 24;
  const bands = most > least ? BANDS : 1;
  const row = (i: number) => page.top + 8 + 20 * i;
  const marks = Array.from({ length: bands }, (_, i) => {
    const band = bands - 1 - i;
    const from = least + ((most - least) * band) / BANDS;
    return [
      tag('rect', { x: left, y: row(i), width: 18, height: 18, fill: colourOf(band, better) }),
      label(left + 26, row(i) + 13, `from ${figure(from, unit)}`),
    ].join('\n');
  });
  const outlined = report.holds.flat().some(Boolean);
  const missing = report.values.flat().includes(null);
  return [
    ...marks,
    ...(outlined ? [label(left, row(bands) + 20, 'outlined: all criteria hold')] : []),
    ...(missing ? [label(left, row(bands) + 40, 'hatched: no answer')] : []),
  ];
}
