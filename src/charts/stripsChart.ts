import { placeLabels } from '../canvas/geometry/labels.ts';
import { place } from './bandsChart.ts';
import type { Axis, Chart, Paper, Pointed } from './chart.ts';
import type { Shown } from './figures.ts';
import { fromPixel, GUTTER, HEIGHT, plotWidth, type Span, toPixel } from './layout.ts';
import { hairline, type } from './paint.ts';
import type { Palette } from './palette.ts';
import { thin } from './raster.ts';
import type { Curve, Strip } from './strip.ts';
import { rulerTicks, ticksOf } from './ticks.ts';
import { frameAt, type Tracks, timeSpan } from './tracks.ts';

/** Elements that the chart moves with the frame: the cursor, and a dot per curve, strip after strip. */
export interface StripParts {
  readonly cursor: HTMLElement;
  readonly dots: readonly (readonly HTMLElement[])[];
}

export interface StripsGiven {
  readonly tracks: Tracks;
  readonly strips: readonly Strip[];
  readonly axis: Axis;
  readonly palette: Palette;
  /** How stations are shown. */
  readonly lengths: Shown;
  /** How times are shown. */
  readonly times: Shown;
  readonly parts: StripParts;
  /** Height of one strip, px. */
  readonly strip: number;
}

/** Free room above the first strip (the table's button), px. */
const HEAD = 18;

/** Height of the strips, px. */
export function stripsHeight(count: number, strip: number): number {
  return HEAD + count * (strip + HEIGHT.stripGap);
}

/**
 * Wheel loads, travel and pitch over the shared ruler. Own drawing, no chart library: a wheel's curve runs over its OWN
 * station, which may go back (a wheel that slips, a contact that jumps from a step's edge to the flat), and chart
 * libraries want an axis that only rises; and the column has to fit bands and scene to the pixel.
 */
export class StripsChart implements Chart {
  readonly height: number;
  readonly #given: StripsGiven;

  constructor(given: StripsGiven) {
    this.#given = given;
    this.height = stripsHeight(given.strips.length, given.strip);
  }

  /** Top of strip i, px. */
  #top(i: number): number {
    return HEAD + i * (this.#given.strip + HEIGHT.stripGap);
  }

  /** Pixel of a value in a strip. */
  #across(value: number, range: Span, top: number): number {
    return top + this.#given.strip * (1 - (value - range.from) / (range.to - range.from));
  }

  spanOf(window: Span): Span {
    return this.#given.axis === 'time' ? timeSpan(this.#given.tracks, window) : window;
  }

  paint(paper: Paper, span: Span): void {
    this.#given.strips.forEach((strip, i) => {
      const top = this.#top(i);
      this.#paintScale(paper, span, strip, top);
      paper.draw.save();
      paper.draw.beginPath();
      paper.draw.rect(GUTTER.left, top - 2, plotWidth(paper.width), this.#given.strip + 4);
      paper.draw.clip();
      for (const curve of strip.curves) this.#paintBefore(paper, span, strip, curve, top);
      for (const curve of strip.curves) this.#paintCurve(paper, span, strip, curve, top);
      paper.draw.restore();
      this.#paintKeys(paper, span, strip, top);
    });
  }

  /** Axis, title and grid of one strip. */
  #paintScale({ draw, width }: Paper, span: Span, strip: Strip, top: number): void {
    const { palette, axis, lengths, times } = this.#given;
    const right = width - GUTTER.right;
    draw.lineWidth = 1;
    draw.strokeStyle = palette.hair;
    for (const tick of rulerTicks(span, width, axis === 'time' ? times : lengths))
      hairline(draw, tick.pixel, top, tick.pixel, top + this.#given.strip);
    draw.font = type.figures;
    draw.textAlign = 'right';
    draw.textBaseline = 'middle';
    draw.fillStyle = palette.soft;
    for (const tick of ticksOf(strip.range.from, strip.range.to, 3, strip.shown)) {
      const y = this.#across(tick.value, strip.range, top);
      hairline(draw, GUTTER.left, y, right, y);
      draw.fillText(tick.label, GUTTER.left - 8, y);
    }
    draw.setLineDash([1, 3]);
    draw.strokeStyle = palette.soft;
    for (const reference of strip.references) {
      const y = this.#across(reference, strip.range, top);
      hairline(draw, GUTTER.left, y, right, y);
    }
    draw.setLineDash([]);
    draw.textAlign = 'left';
    draw.font = type.words;
    draw.fillStyle = palette.ink;
    draw.fillText(strip.title, 12, top + 5);
    draw.font = type.figures;
    draw.fillStyle = palette.soft;
    draw.fillText(strip.shown.unit, 12, top + 20);
  }

  #trace(
    { draw, width }: Paper,
    axis: Float64Array,
    values: Float64Array,
    span: Span,
    range: Span,
    top: number,
  ): void {
    const line = thin(axis, values, span, Math.round(plotWidth(width)));
    draw.beginPath();
    for (let i = 0; i < line.count; i++)
      draw.lineTo(toPixel(line.x[i] as number, span, width), this.#across(line.y[i] as number, range, top));
    draw.stroke();
  }

  #paintCurve(paper: Paper, span: Span, strip: Strip, curve: Curve, top: number): void {
    const { draw } = paper;
    const { palette, tracks, axis } = this.#given;
    draw.strokeStyle = palette.ink;
    draw.lineWidth = 1.4;
    draw.lineJoin = 'round';
    draw.setLineDash([...curve.dash]);
    this.#trace(paper, axis === 'time' ? tracks.time : curve.station, curve.values, span, strip.range, top);
    draw.setLineDash([]);
  }

  #paintBefore(paper: Paper, span: Span, strip: Strip, curve: Curve, top: number): void {
    const { draw } = paper;
    if (curve.before === undefined) return;
    draw.strokeStyle = this.#given.palette.faint;
    draw.globalAlpha = 0.75;
    draw.lineWidth = 1;
    draw.setLineDash([...curve.dash]);
    const { time, station, values } = curve.before;
    this.#trace(paper, this.#given.axis === 'time' ? time : station, values, span, strip.range, top);
    draw.setLineDash([]);
    draw.globalAlpha = 1;
  }

  /** Numbers of the wheels at the ends of their lines. */
  #paintKeys({ draw, width }: Paper, span: Span, strip: Strip, top: number): void {
    const { tracks, axis, palette } = this.#given;
    const ends = strip.curves.map((curve) => {
      const at = axis === 'time' ? tracks.time : curve.station;
      const last = lastBefore(at, span.to);
      return {
        key: curve.key,
        x: toPixel(at[last] ?? 0, span, width),
        y: this.#across(curve.values[last] ?? 0, strip.range, top),
      };
    });
    const wishes = ends.map(({ x, y }) => ({
      width: 14,
      height: 10,
      places: [0, -10, 10, -20, 20, -30, 30].map((dy) => ({
        x: Math.min(x, width - GUTTER.right) + 4,
        y: y - 5 + dy,
      })),
    }));
    const column = { x: GUTTER.left, y: top - 6, width: width - GUTTER.left, height: this.#given.strip + 12 };
    draw.font = type.small;
    draw.textAlign = 'left';
    draw.textBaseline = 'middle';
    placeLabels(wishes, [], column).forEach(({ place: where, rect }, i) => {
      const key = ends[i]?.key ?? '';
      if (where < 0 || key === '' || rect.x < GUTTER.left) return;
      draw.fillStyle = palette.paper;
      draw.fillRect(rect.x - 1, rect.y, 7 * key.length + 2, rect.height);
      draw.fillStyle = palette.ink;
      draw.fillText(key, rect.x, rect.y + 5);
    });
  }

  move(frame: number, span: Span, width: number): void {
    const { tracks, axis, strips, parts } = this.#given;
    const i = Math.min(frame, tracks.frames - 1);
    place(parts.cursor, (axis === 'time' ? tracks.time : tracks.station)[i], span, width);
    strips.forEach((strip, k) => {
      strip.curves.forEach((curve, c) => {
        const dot = parts.dots[k]?.[c];
        const at = (axis === 'time' ? tracks.time : curve.station)[i];
        if (dot === undefined) return;
        place(dot, at, span, width);
        const y = this.#across(curve.values[i] ?? Number.NaN, strip.range, this.#top(k));
        if (Number.isFinite(y)) dot.style.transform += ` translateY(${y.toFixed(1)}px)`;
      });
    });
  }

  frameAt(pointed: Pointed, start: Pointed, span: Span, width: number): number {
    const { tracks, axis, strips } = this.#given;
    const value = fromPixel(pointed.x, span, width);
    if (axis === 'time') return frameAt(tracks.time, value);
    const k = Math.max(0, Math.floor((start.y - HEAD) / (this.#given.strip + HEIGHT.stripGap)));
    const strip = strips[Math.min(k, strips.length - 1)];
    const curve =
      strip === undefined ? undefined : this.#nearestCurve(strip, start, span, width, this.#top(k));
    return frameAt(curve?.station ?? tracks.station, value);
  }

  /** The curve of a strip that passes nearest to a pointed place. */
  #nearestCurve(strip: Strip, at: Pointed, span: Span, width: number, top: number): Curve | undefined {
    const value = fromPixel(at.x, span, width);
    let best: Curve | undefined;
    let least = Number.POSITIVE_INFINITY;
    for (const curve of strip.curves) {
      const y = this.#across(curve.values[frameAt(curve.station, value)] ?? Number.NaN, strip.range, top);
      if (Math.abs(y - at.y) < least) {
        least = Math.abs(y - at.y);
        best = curve;
      }
    }
    return best;
  }
}

/** Last frame whose value is not past a limit; the last one of all when none is. */
function lastBefore(values: Float64Array, limit: number): number {
  for (let i = values.length - 1; i >= 0; i--) if ((values[i] as number) <= limit) return i;
  return values.length - 1;
}
