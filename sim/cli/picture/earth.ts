import type { ScaleLinear } from 'd3-scale';
import { ink } from './palette.ts';
import { envelopeOf, extentOf, linesOf } from './pixels.ts';
import { label, polyline, px, tag } from './svg.ts';

/** Least and greatest height of the ground's relief in the picture, and the earth below it, px. */
const [LOWEST, HIGHEST, BELOW] = [10, 72, 14] as const;

/** Scale factors that a reader can keep in mind. */
const FACTORS = [0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100] as const;

/**
 * The ground's line over earth, to the scale of the station axis where that can be seen; otherwise its heights are
 * multiplied by a round factor, which is written beside it.
 * @param x station axis, m to px
 * @param top upper end of the drawing, px
 * @returns markup, and the height that it takes
 */
export function groundPart(
  ground: { readonly x: ArrayLike<number>; readonly z: ArrayLike<number> },
  x: ScaleLinear<number, number>,
  top: number,
): { readonly height: number; readonly markup: string } {
  const [from = 0, to = 1] = x.domain();
  const [left = 0, right = 1] = x.range();
  const [xs, zs] = stretchOf(ground, from, to);
  const envelope = envelopeOf(xs, zs, from, to, right - left);
  const [lowest, highest] = extentOf([envelope.least, envelope.greatest]);
  const scale = (right - left) / (to - from);
  const factor = factorFor((highest - lowest) * scale);
  const height = (highest - lowest) * scale * factor + BELOW;
  const z = (value: number): number => top + (highest - value) * scale * factor;
  const lines = linesOf(envelope).map((line) => polyline(line.map(([c, value]) => [left + c, z(value)])));
  const bottom = top + height;
  const markup = [
    ...lines.map((d) => tag('path', { d: `${d}V${px(bottom)}H${px(left)}Z`, fill: 'url(#earth)' })),
    ...lines.map((d) =>
      tag('path', { d, fill: 'none', stroke: ink.text, 'stroke-width': 1.6, 'stroke-linejoin': 'round' }),
    ),
    label(left - 8, bottom - 2, 'ground', { 'text-anchor': 'end', fill: ink.faint, 'font-size': '12' }),
    factor === 1
      ? ''
      : label(left - 8, bottom - 17, `height ×${factor}`, {
          'text-anchor': 'end',
          fill: ink.faint,
          'font-size': '12',
        }),
  ];
  return { height, markup: markup.filter((part) => part !== '').join('\n') };
}

/** The ground's points with its level run-out on both sides, so that the line spans the picture. */
function stretchOf(
  ground: { readonly x: ArrayLike<number>; readonly z: ArrayLike<number> },
  from: number,
  to: number,
): [number[], number[]] {
  const xs = Array.from(ground.x);
  const zs = Array.from(ground.z);
  if (xs.length === 0)
    return [
      [from, to],
      [0, 0],
    ];
  return [
    [Math.min(from, xs[0] ?? from), ...xs, Math.max(to, xs.at(-1) ?? to)],
    [zs[0] ?? 0, ...zs, zs.at(-1) ?? 0],
  ];
}

/** True scale if the relief (px) can be seen and fits; otherwise the factor nearest to it that does. Flat is flat. */
function factorFor(relief: number): number {
  if (relief < 1e-6 || (relief >= LOWEST && relief <= HIGHEST)) return 1;
  const fitting = FACTORS.filter((factor) => relief * factor <= HIGHEST);
  if (relief > HIGHEST) return fitting.at(-1) ?? HIGHEST / relief;
  return fitting.find((factor) => relief * factor >= LOWEST) ?? fitting.at(-1) ?? 1;
}
