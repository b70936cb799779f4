import { figure, type Shown, timeShown } from './figures.ts';
import type { Span } from './layout.ts';
import type { Strip } from './strip.ts';
import type { Tracks } from './tracks.ts';

/** Most rows of a table of a strip. */
export const MOST_ROWS = 200;

/** A table of what strips show: heads with units, rows of figures. */
export interface StripTable {
  readonly heads: readonly string[];
  readonly rows: readonly { readonly frame: number; readonly cells: readonly string[] }[];
}

/** The frames whose vehicle station lies in a window, thinned evenly to `most`; first and last are kept. */
export function framesIn(tracks: Tracks, window: Span, most = MOST_ROWS): number[] {
  const inside: number[] = [];
  for (let i = 0; i < tracks.frames; i++) {
    const s = tracks.station[i] as number;
    if (s >= window.from && s <= window.to) inside.push(i);
  }
  if (inside.length <= most) return inside;
  return Array.from(
    { length: most },
    (_, k) => inside[Math.round((k * (inside.length - 1)) / (most - 1))] as number,
  );
}

/** Time, the vehicle's station, and every curve of the strips in the frames of a window. */
export function tableOf(
  tracks: Tracks,
  strips: readonly Strip[],
  window: Span,
  lengths: Shown,
  times = timeShown,
): StripTable {
  const finer = { ...lengths, decimals: lengths.decimals + 1 };
  const curves = strips.flatMap((strip) => strip.curves.map((curve) => ({ strip, curve })));
  return {
    heads: [
      'time, s',
      `station, ${lengths.unit}`,
      ...curves.map(({ strip, curve }) => `${strip.title.toLowerCase()} ${curve.name}, ${strip.shown.unit}`),
    ],
    rows: framesIn(tracks, window).map((frame) => ({
      frame,
      cells: [
        figure(tracks.time[frame] as number, times),
        figure(tracks.station[frame] as number, finer),
        ...curves.map(({ strip, curve }) => figure(curve.values[frame] as number, strip.shown)),
      ],
    })),
  };
}
