import { scaleLinear } from 'd3-scale';
import type { Shown } from './figures.ts';
import { GUTTER, plotWidth, type Span, toPixel } from './layout.ts';

/** A tick: value in SI, and its label without unit; small ticks have none. */
export interface Tick {
  readonly value: number;
  readonly label: string;
}

/** Round values of a shown quantity within [from, to] (SI), about `count` of them, labelled with as many decimals as they need. */
export function ticksOf(from: number, to: number, count: number, shown: Shown): readonly Tick[] {
  const scale = scaleLinear().domain([from * shown.factor, to * shown.factor]);
  const text = scale.tickFormat(count);
  return scale.ticks(count).map((v) => ({ value: v / shown.factor, label: grouped(text(v)) }));
}

/** Ticks of the shared ruler for a picture this wide: a label every 90 px or so. Those outside the column are left out. */
export function rulerTicks(
  span: Span,
  width: number,
  shown: Shown,
): readonly (Tick & { readonly pixel: number })[] {
  const count = Math.max(2, Math.round(plotWidth(width) / 90));
  return ticksOf(span.from, span.to, count, shown)
    .map((tick) => ({ ...tick, pixel: toPixel(tick.value, span, width) }))
    .filter((tick) => tick.pixel >= GUTTER.left - 0.5 && tick.pixel <= width - GUTTER.right + 0.5);
}

/** Range that holds all values with round ends; `floor` is held in as well. */
export function niceRange(
  least: number,
  greatest: number,
  count: number,
  factor: number,
  floor?: number,
): Span {
  const lo = Math.min(least, floor ?? least);
  const hi = Math.max(greatest, floor ?? greatest);
  const pad = hi > lo ? 0 : Math.max(Math.abs(hi) * 0.1, 1e-6);
  const [from, to] = scaleLinear()
    .domain([(lo - pad) * factor, (hi + pad) * factor])
    .nice(count)
    .domain() as [number, number];
  return { from: from / factor, to: to / factor };
}

/** A true minus sign, and a thin space between thousands from five digits on. */
function grouped(text: string): string {
  const plain = text.replaceAll(',', '');
  const [whole = '', rest] = plain.replace('-', '−').split('.');
  const digits = whole.replace('−', '').length > 4 ? whole.replace(/(\d)(?=(\d{3})+$)/g, '$1\u2009') : whole;
  return rest === undefined ? digits : `${digits}.${rest}`;
}
