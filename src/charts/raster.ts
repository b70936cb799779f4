import type { Span } from './layout.ts';
import type { Lift } from './tracks.ts';

/** One band, one entry per pixel column: least share of the standing load (NaN where the run has not been), and off the ground. */
export interface BandColumns {
  readonly share: Float32Array;
  readonly off: Uint8Array;
}

/** Where a value lies on the axis, in columns (fractional). */
type Place = (value: number) => number;

function placer(span: Span, columns: number): Place {
  const k = columns / (span.to - span.from);
  return (value) => (value - span.from) * k;
}

/**
 * Rasters one wheel's band: `axis` (station m or time s per frame) against load over standing load. Each column keeps
 * the least share that falls into it, and any time off the ground, so that short lift-offs survive at every zoom;
 * `lifts` adds those between frames.
 */
export function rasterBand(
  axis: Float64Array,
  load: Float64Array,
  gap: Float64Array,
  standing: number,
  lifts: readonly Span[],
  span: Span,
  columns: number,
): BandColumns {
  const share = new Float32Array(columns).fill(Number.NaN);
  const off = new Uint8Array(columns);
  const place = placer(span, columns);
  const over = standing > 0 ? 1 / standing : 0;
  let a = 0;
  let sa = 0;
  for (let i = 0; i < axis.length; i++) {
    const b = place(axis[i] as number);
    const sb = (load[i] as number) * over;
    const up = (gap[i] as number) > 0;
    if (i === 0) {
      a = b;
      sa = sb;
    }
    spread(share, off, a, b, sa, sb, up);
    a = b;
    sa = sb;
  }
  for (const lift of lifts)
    mark(off, place(Math.min(lift.from, lift.to)), place(Math.max(lift.from, lift.to)));
  return { share, off };
}

/** Lowers every column between two samples to the line between them. */
function spread(
  share: Float32Array,
  off: Uint8Array,
  a: number,
  b: number,
  sa: number,
  sb: number,
  up: boolean,
): void {
  const lo = Math.floor(Math.min(a, b));
  const hi = Math.floor(Math.max(a, b));
  if (hi < 0 || lo >= share.length) return;
  const slope = b === a ? 0 : (sb - sa) / (b - a);
  for (let c = Math.max(0, lo); c <= Math.min(share.length - 1, hi); c++) {
    const at = (x: number) =>
      b === a ? Math.min(sa, sb) : sa + (Math.min(Math.max(x, Math.min(a, b)), Math.max(a, b)) - a) * slope;
    const s = Math.min(at(c), at(c + 1));
    const was = share[c] as number;
    if (Number.isNaN(was) || s < was) share[c] = s;
    if (up && c === Math.floor(b)) off[c] = 1;
  }
}

/** Marks all columns from a to b; at least one. */
function mark(off: Uint8Array, a: number, b: number): void {
  for (let c = Math.max(0, Math.floor(a)); c <= Math.min(off.length - 1, Math.floor(b)); c++) off[c] = 1;
}

/** Runs of set entries, as [first, one past last]. */
export function runsOf(set: Uint8Array): readonly (readonly [number, number])[] {
  const runs: [number, number][] = [];
  let start = -1;
  for (let i = 0; i <= set.length; i++) {
    const on = i < set.length && set[i] === 1;
    if (on && start < 0) start = i;
    if (!on && start >= 0) {
      runs.push([start, i]);
      start = -1;
    }
  }
  return runs;
}

/** A curve thinned to what a picture of this many columns can show: at most first, least, greatest and last per column. */
export interface ThinCurve {
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly count: number;
}

/**
 * Thins a curve to the columns of a picture, in order of time: each stretch of frames within one column gives its
 * first, its least and greatest (in the order in which they came) and its last. Frames outside the span are left out but
 * for the neighbours of those inside, so that lines run to the edge. The axis may go back and forth.
 */
export function thin(axis: Float64Array, values: Float64Array, span: Span, columns: number): ThinCurve {
  const place = placer(span, columns);
  const x: number[] = [];
  const y: number[] = [];
  const put = (i: number) => {
    x.push(axis[i] as number);
    y.push(values[i] as number);
  };
  let i = 0;
  while (i < axis.length) {
    const c = clampColumn(place(axis[i] as number), columns);
    let lo = i;
    let hi = i;
    let last = i;
    while (last + 1 < axis.length && clampColumn(place(axis[last + 1] as number), columns) === c) {
      last++;
      if ((values[last] as number) < (values[lo] as number)) lo = last;
      if ((values[last] as number) > (values[hi] as number)) hi = last;
    }
    const inner = c < 0 || c >= columns ? [] : [Math.min(lo, hi), Math.max(lo, hi)];
    let before = -1;
    for (const k of [i, ...inner, last]) {
      if (k !== before) put(k);
      before = k;
    }
    i = last + 1;
  }
  return { x: Float64Array.from(x), y: Float64Array.from(y), count: x.length };
}

function clampColumn(at: number, columns: number): number {
  return at < 0 ? -1 : at >= columns ? columns : Math.floor(at);
}

/** The times or the stations of lifts, whichever the axis shows. */
export function liftSpans(lifts: readonly Lift[], axis: 'station' | 'time'): readonly Span[] {
  return lifts.map((lift) => lift[axis]);
}
