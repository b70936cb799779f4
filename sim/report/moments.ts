import { column, type Recording } from '../../shared/recording.ts';
import type { Moment } from '../../shared/report.ts';

/** A figure and the frame in which it was reached. */
export interface Peak {
  readonly value: number;
  readonly frame: number;
}

const finite = (value: number | undefined) => (value !== undefined && Number.isFinite(value) ? value : 0);

/** The moment of a frame: its time, s, and the vehicle's station, m. Frames outside the recording are brought inside. */
export function momentOf(recording: Recording, frame: number): Moment {
  const inside = Math.max(0, Math.min(recording.frames - 1, frame));
  return {
    frame: inside,
    time: finite(column(recording, 'time')[inside]),
    station: finite(column(recording, 'station')[inside]),
  };
}

/** The last frame at or before `time` (s): the frame to show for what happened between two frames; 0 before the first. */
export function frameAt(recording: Recording, time: number): number {
  const times = column(recording, 'time');
  let low = 0;
  let high = recording.frames;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((times[middle] ?? 0) <= time) low = middle + 1;
    else high = middle;
  }
  return Math.max(0, low - 1);
}

/** The moment of an event: its own interpolated time and station, and the frame at or before it. */
export function momentAt(
  recording: Recording,
  place: { readonly time: number; readonly station: number },
): Moment {
  return { frame: frameAt(recording, place.time), time: finite(place.time), station: finite(place.station) };
}

/** Least finite value of a column and its first frame; undefined when there is none. */
export function leastOf(values: Float64Array): Peak | undefined {
  let best: Peak | undefined;
  for (let frame = 0; frame < values.length; frame++) {
    const value = values[frame] ?? Number.NaN;
    if (Number.isFinite(value) && (best === undefined || value < best.value)) best = { value, frame };
  }
  return best;
}

/** Greatest finite value of a column and its first frame; undefined when there is none. */
export function greatestOf(values: Float64Array): Peak | undefined {
  let best: Peak | undefined;
  for (let frame = 0; frame < values.length; frame++) {
    const value = values[frame] ?? Number.NaN;
    if (Number.isFinite(value) && (best === undefined || value > best.value)) best = { value, frame };
  }
  return best;
}

/** Where wheel `index` was in a frame: its own station, m. */
export function wheelStationAt(recording: Recording, index: number, frame: number): number {
  return finite(column(recording, 'wheelStation', index)[Math.max(0, Math.min(recording.frames - 1, frame))]);
}
