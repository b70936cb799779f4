import { column, type Recording } from '../../shared/recording.ts';
import type { Span } from './layout.ts';

/** One wheel's columns of a run; views into the recording, all of the same length. */
export interface WheelTrack {
  readonly name: string;
  /** Number of the axle line, 1 from the front: the wheel's short name in pictures. */
  readonly axle: number;
  /** Place in the recording's list of wheels. */
  readonly index: number;
  /** The wheel's own station per frame, m. */
  readonly station: Float64Array;
  /** Load of the axle line per frame, N. */
  readonly load: Float64Array;
  /** Distance from the ground per frame, m; above zero while the wheel is off the ground. */
  readonly gap: Float64Array;
  /** Travel per frame, m, bump positive. */
  readonly travel: Float64Array;
  /** Standing load of the line, N. */
  readonly standing: number;
  /** Stretches off the ground, by the run's events. */
  readonly lifts: readonly Lift[];
}

/** One time off the ground: from lift-off to touch-down, or to the end of the run. */
export interface Lift {
  readonly time: Span;
  /** The wheel's own stations, m. */
  readonly station: Span;
  /** Greatest distance from the ground, m; absent when it had not touched down when the run ended. */
  readonly height?: number;
}

/** What the charts draw from. Wheels are in order from the front. */
export interface Tracks {
  readonly frames: number;
  readonly time: Float64Array;
  readonly station: Float64Array;
  readonly pitch: Float64Array;
  readonly wheels: readonly WheelTrack[];
}

/** Pairs the lift-offs and touch-downs of one wheel. A lift without a touch-down lasts to the last frame. */
function liftsOf(recording: Recording, wheel: number): Lift[] {
  const name = recording.wheels[wheel];
  const last = recording.frames - 1;
  const lifts: Lift[] = [];
  let up: { time: number; station: number } | undefined;
  for (const event of recording.events) {
    if (event.kind === 'lift-off' && event.wheel === name)
      up = { time: event.time, station: event.wheelStation };
    if (event.kind !== 'touch-down' || event.wheel !== name) continue;
    const from = up ?? { time: event.time - event.duration, station: event.wheelStation };
    lifts.push({
      time: { from: from.time, to: event.time },
      station: { from: from.station, to: event.wheelStation },
      height: event.height,
    });
    up = undefined;
  }
  if (up !== undefined && last >= 0) {
    const time = column(recording, 'time')[last] as number;
    const station = column(recording, 'wheelStation', wheel)[last] as number;
    lifts.push({ time: { from: up.time, to: time }, station: { from: up.station, to: station } });
  }
  return lifts;
}

/** The tracks of a recording; `axles` gives each wheel's axle number in the recording's order. */
export function tracksOf(recording: Recording, axles: readonly number[]): Tracks {
  const wheels = recording.wheels.map(
    (name, index): WheelTrack => ({
      name,
      axle: axles[index] ?? index + 1,
      index,
      station: column(recording, 'wheelStation', index),
      load: column(recording, 'load', index),
      gap: column(recording, 'gap', index),
      travel: column(recording, 'travel', index),
      standing: recording.standing.loads[index] ?? 0,
      lifts: liftsOf(recording, index),
    }),
  );
  return {
    frames: recording.frames,
    time: column(recording, 'time'),
    station: column(recording, 'station'),
    pitch: column(recording, 'pitch'),
    wheels: wheels.sort((a, b) => a.axle - b.axle),
  };
}

/**
 * The frame at which a column first comes to a value; if it never does, the frame that comes nearest. −1 for an empty
 * column.
 */
export function frameAt(values: Float64Array, value: number): number {
  let best = -1;
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < values.length; i++) {
    const d = (values[i] as number) - value;
    if (Math.abs(d) < least) {
      least = Math.abs(d);
      best = i;
    }
    if (i > 0 && d * ((values[i - 1] as number) - value) <= 0) return best;
  }
  return best;
}

/**
 * Stretch of time that belongs to a stretch of stations: from the first to the last frame in which the vehicle is in
 * it, m in, s out. The whole run when it holds the run's whole way; when the vehicle is never in it, the moment at which
 * it comes nearest, half a second either way.
 */
export function timeSpan(tracks: Tracks, window: Span): Span {
  const { station, time, frames } = tracks;
  const end = frames > 0 ? (time[frames - 1] as number) : 1;
  let first = -1;
  let last = -1;
  for (let i = 0; i < frames; i++) {
    const s = station[i] as number;
    if (s < window.from || s > window.to) continue;
    if (first < 0) first = i;
    last = i;
  }
  if (last > first) return { from: time[first] as number, to: time[last] as number };
  const near = time[Math.max(0, frameAt(station, (window.from + window.to) / 2))] ?? 0;
  return frames > 1 ? { from: near - 0.5, to: near + 0.5 } : { from: 0, to: Math.max(end, 1) };
}
