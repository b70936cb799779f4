import type { Axis, Chart, Paper, Pointed } from './chart.ts';
import { RAMP_STEPS, rampAt, shareRamp } from './colour.ts';
import { type Shown, withUnit } from './figures.ts';
import { bandHeight, fromPixel, GUTTER, HEIGHT, plotWidth, type Span, toPixel } from './layout.ts';
import { fitted, hairline, hatchTile, type, widened } from './paint.ts';
import type { Palette } from './palette.ts';
import { liftSpans, rasterBand, runsOf } from './raster.ts';
import { rulerTicks } from './ticks.ts';
import { frameAt, type Tracks, timeSpan, type WheelTrack } from './tracks.ts';

/** Elements that the chart moves with the frame. */
export interface BandParts {
  readonly cursor: HTMLElement;
  readonly here: readonly HTMLElement[];
  readonly loads: readonly HTMLElement[];
}

/** What a bands chart is made of. */
export interface BandsGiven {
  readonly tracks: Tracks;
  readonly before: Tracks | null;
  readonly axis: Axis;
  readonly palette: Palette;
  readonly force: Shown;
  /** How times are shown. */
  readonly times: Shown;
  readonly parts: BandParts;
}

/** Height of the part of a band that shows the run before, px. */
const BEFORE = 4;

/** Top of the bands: under the row of lift marks, and under the ruler of times if there is one. */
export function bandsTop(axis: Axis): number {
  return HEIGHT.marks + (axis === 'time' ? HEIGHT.timeRuler : 0);
}

/** Height of all bands with what is above them, px. */
export function bandsHeight(count: number, axis: Axis): number {
  return bandsTop(axis) + count * (bandHeight(count) + HEIGHT.bandGap);
}

/** Top of band i, px. */
export function bandTop(i: number, count: number, axis: Axis): number {
  return bandsTop(axis) + i * (bandHeight(count) + HEIGHT.bandGap);
}

/** One row of pixels of a band: its colours, column by column; transparent where the run has not been. */
function rowOf(share: Float32Array, ramp: Uint32Array): ImageData {
  const row = new ImageData(share.length, 1);
  const pixels = new Uint32Array(row.data.buffer);
  for (let i = 0; i < share.length; i++) {
    const s = share[i] as number;
    if (Number.isNaN(s)) continue;
    const c = rampAt(ramp, s);
    pixels[i] = 0xff000000 | ((c & 255) << 16) | (c & 0xff00) | (c >> 16);
  }
  return row;
}

/** The bands: one per wheel, its share of the standing load in colour over its own station (or time), hatched while it is off. */
export class BandsChart implements Chart {
  readonly height: number;
  readonly #given: BandsGiven;
  readonly #ramp: Uint32Array;
  readonly #row = document.createElement('canvas');
  #tile: { readonly ratio: number; readonly canvas: HTMLCanvasElement } | undefined;

  constructor(given: BandsGiven) {
    this.#given = given;
    this.height = bandsHeight(given.tracks.wheels.length, given.axis);
    this.#ramp = shareRamp(given.palette);
    if (this.#ramp.length !== RAMP_STEPS) throw new RangeError('the ramp has a wrong length');
  }

  spanOf(window: Span): Span {
    return this.#given.axis === 'time' ? timeSpan(this.#given.tracks, window) : window;
  }

  paint(paper: Paper, span: Span): void {
    const { tracks, before, axis } = this.#given;
    if (axis === 'time') this.#paintTimes(paper, span);
    this.#paintMarks(paper, span);
    const count = tracks.wheels.length;
    tracks.wheels.forEach((track, i) => {
      const top = bandTop(i, count, axis);
      const height = bandHeight(count);
      const earlier = before?.wheels.find((w) => w.name === track.name);
      const split = earlier === undefined || before === null ? height : height - BEFORE;
      this.#paintBand(paper, span, this.#axisOf(tracks, track), track, top, split);
      if (earlier !== undefined && before !== null)
        this.#paintBand(paper, span, this.#axisOf(before, earlier), earlier, top + split, BEFORE);
      this.#paintFrame(paper, top, height, split);
    });
  }

  #axisOf(tracks: Tracks, track: WheelTrack): Float64Array {
    return this.#given.axis === 'time' ? tracks.time : track.station;
  }

  #paintBand(
    paper: Paper,
    span: Span,
    axis: Float64Array,
    track: WheelTrack,
    top: number,
    height: number,
  ): void {
    const { draw, ratio } = paper;
    const width = plotWidth(paper.width);
    const columns = Math.round(width * ratio);
    const lifts = liftSpans(track.lifts, this.#given.axis);
    const { share, off } = rasterBand(axis, track.load, track.gap, track.standing, lifts, span, columns);
    this.#row.width = columns;
    this.#row.height = 1;
    this.#row.getContext('2d')?.putImageData(rowOf(share, this.#ramp), 0, 0);
    draw.imageSmoothingEnabled = false;
    draw.drawImage(this.#row, 0, 0, columns, 1, GUTTER.left, top, width, height);
    const pattern = draw.createPattern(this.#tileFor(ratio), 'repeat');
    if (pattern === null) return;
    // Scaled back to CSS px and tied to the band's top, so that the hatching is as fine on every screen.
    pattern.setTransform(new DOMMatrix([1 / ratio, 0, 0, 1 / ratio, GUTTER.left, top]));
    draw.fillStyle = pattern;
    for (const [from, to] of runsOf(off)) {
      const run = widened({ from: from / ratio, to: to / ratio }, 2);
      draw.fillRect(GUTTER.left + Math.max(0, run.from), top, run.to - Math.max(0, run.from), height);
    }
  }

  #tileFor(ratio: number): HTMLCanvasElement {
    const { palette } = this.#given;
    if (this.#tile?.ratio !== ratio)
      this.#tile = { ratio, canvas: hatchTile(palette.low, palette.paper, ratio) };
    return this.#tile.canvas;
  }

  #paintFrame({ draw, width }: Paper, top: number, height: number, split: number): void {
    const { palette } = this.#given;
    draw.lineWidth = 1;
    draw.strokeStyle = palette.hair;
    draw.strokeRect(GUTTER.left - 0.5, top - 0.5, plotWidth(width) + 1, height + 1);
    if (split < height) {
      draw.strokeStyle = palette.paper;
      hairline(draw, GUTTER.left, top + split - 0.5, width - GUTTER.right, top + split - 0.5);
    }
  }

  /** The row of lift marks: a stroke where each wheel was off the ground, with the wheel's number. */
  #paintMarks({ draw, width }: Paper, span: Span): void {
    const { tracks, axis, palette } = this.#given;
    const foot = bandsTop(axis) - 3;
    draw.font = type.small;
    draw.textAlign = 'center';
    draw.textBaseline = 'alphabetic';
    let clear = Number.NEGATIVE_INFINITY;
    const marks = tracks.wheels.flatMap((track) => track.lifts.map((lift) => ({ track, at: lift[axis] })));
    marks.sort((a, b) => a.at.from - b.at.from);
    for (const { track, at } of marks) {
      const ends = [toPixel(at.from, span, width), toPixel(at.to, span, width)];
      const run = widened({ from: Math.min(...ends), to: Math.max(...ends) }, 3);
      const from = Math.max(GUTTER.left, run.from);
      const to = Math.min(width - GUTTER.right, run.to);
      if (to <= from) continue;
      draw.fillStyle = palette.low;
      draw.fillRect(from, foot - 3, to - from, 3);
      const middle = (from + to) / 2;
      if (middle - 5 < clear) continue;
      draw.fillStyle = palette.lowInk;
      draw.fillText(String(track.axle), middle, foot - 5);
      clear = middle + 5;
    }
  }

  #paintTimes({ draw, width }: Paper, span: Span): void {
    const { palette, times } = this.#given;
    draw.strokeStyle = palette.soft;
    draw.fillStyle = palette.soft;
    draw.lineWidth = 1;
    draw.textBaseline = 'middle';
    draw.textAlign = 'left';
    draw.font = type.words;
    draw.fillText(fitted(draw, 'time, s', GUTTER.left - 16), 12, 13);
    draw.font = type.figures;
    draw.textAlign = 'center';
    for (const tick of rulerTicks(span, width, times)) {
      hairline(draw, tick.pixel, 0, tick.pixel, 4);
      draw.fillText(tick.label, tick.pixel, 13);
    }
  }

  move(frame: number, span: Span, width: number): void {
    const { tracks, axis, parts, force } = this.#given;
    const i = Math.min(frame, tracks.frames - 1);
    const at = (axis === 'time' ? tracks.time : tracks.station)[i];
    place(parts.cursor, at, span, width);
    tracks.wheels.forEach((track, k) => {
      const here = parts.here[k];
      if (here !== undefined) place(here, this.#axisOf(tracks, track)[i], span, width);
      const load = parts.loads[k];
      const words = withUnit(track.load[i] ?? Number.NaN, force);
      if (load !== undefined && load.textContent !== words) load.textContent = words;
    });
  }

  frameAt(pointed: Pointed, start: Pointed, span: Span, width: number): number {
    const { tracks, axis } = this.#given;
    const value = fromPixel(pointed.x, span, width);
    if (axis === 'time') return frameAt(tracks.time, value);
    const count = tracks.wheels.length;
    const row = Math.floor((start.y - bandsTop(axis)) / (bandHeight(count) + HEIGHT.bandGap));
    return frameAt(tracks.wheels[row]?.station ?? tracks.station, value);
  }
}

/** Moves an element to a value on the axis; hides it beside the plotting column. */
export function place(element: HTMLElement, value: number | undefined, span: Span, width: number): void {
  const x = value === undefined ? Number.NaN : toPixel(value, span, width);
  const seen = x >= GUTTER.left - 1 && x <= width - GUTTER.right + 1;
  element.style.visibility = seen ? 'visible' : 'hidden';
  if (seen) element.style.transform = `translateX(${Math.round(x)}px)`;
}
