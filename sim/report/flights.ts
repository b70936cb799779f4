import { column, type Recording, type RunEvent } from '../../shared/recording.ts';
import { momentOf } from './moments.ts';

/** One stretch of time in which a wheel was off the ground. */
export interface Flight {
  /** Index of the wheel. */
  readonly wheel: number;
  /** Model time at which it left the ground and at which it came back (or the run began or ended), s. */
  readonly from: number;
  readonly to: number;
  /** How long it was off within the run, s. */
  readonly duration: number;
  /** The vehicle's station and the wheel's own where it began, m. */
  readonly station: number;
  readonly wheelStation: number;
  /** The run ended before the wheel came down. */
  readonly open: boolean;
}

type Touch = Extract<RunEvent, { kind: 'lift-off' | 'touch-down' }>;

/**
 * All flights of all wheels, wheel after wheel, each in order of time. They are read from the events, which lie
 * between frames, so a hop that is shorter than a frame counts with its true duration. A wheel that never comes down
 * is off until the end of the run; one that is in the air in the first frame is off from there.
 */
export function flights(recording: Recording): readonly Flight[] {
  return recording.wheels.flatMap((name, wheel) => {
    const touches = recording.events.filter(
      (event): event is Touch =>
        (event.kind === 'lift-off' || event.kind === 'touch-down') && event.wheel === name,
    );
    return flightsOf(recording, wheel, touches);
  });
}

function flightsOf(recording: Recording, wheel: number, touches: readonly Touch[]): readonly Flight[] {
  const found: Flight[] = [];
  let begun = inAirAtStart(recording, wheel, touches[0]);
  for (const touch of touches) {
    if (touch.kind === 'lift-off') {
      begun ??= { from: touch.time, station: touch.station, wheelStation: touch.wheelStation };
    } else if (begun !== undefined) {
      const to = Math.max(begun.from, touch.time);
      found.push({ wheel, ...begun, to, duration: saidOr(touch.duration, to - begun.from), open: false });
      begun = undefined;
    }
  }
  if (begun !== undefined) {
    const to = Math.max(begun.from, endOf(recording));
    found.push({ wheel, ...begun, to, duration: to - begun.from, open: true });
  }
  return found;
}

/** The touch-down's own duration, s, where it agrees with the times: a difference of times has lost its last digits. */
const saidOr = (said: number, counted: number) =>
  Math.abs(said - counted) < 1e-9 ? Math.max(0, said) : counted;

/** Time at which the recording ends, s: the end of the run, or its last frame if that is later. */
export function endOf(recording: Recording): number {
  return Math.max(recording.end.time, momentOf(recording, recording.frames - 1).time);
}

/** A flight that had begun before the first event: the first event is a touch-down, or the first frame is in the air. */
function inAirAtStart(recording: Recording, wheel: number, first: Touch | undefined) {
  const start = momentOf(recording, 0);
  const gap = column(recording, 'gap', wheel)[0] ?? 0;
  const inAir = first === undefined ? gap > 0 : first.kind === 'touch-down';
  if (!inAir) return undefined;
  return {
    from: start.time,
    station: start.station,
    wheelStation: column(recording, 'wheelStation', wheel)[0] ?? 0,
  };
}

/** The longest flight of a list, the first one of equals; undefined when the list is empty. */
export function longestOf(list: readonly Flight[]): Flight | undefined {
  return list.reduce<Flight | undefined>(
    (best, flight) => (best === undefined || flight.duration > best.duration ? flight : best),
    undefined,
  );
}

/** Share of the run's time in which a wheel was off the ground, 0 to 1; undefined when the run took no time. */
export function shareOfTime(recording: Recording, wheel: number, all: readonly Flight[]): number | undefined {
  const total = endOf(recording) - momentOf(recording, 0).time;
  if (!(total > 0)) return undefined;
  const off = all.filter((f) => f.wheel === wheel).reduce((sum, f) => sum + f.duration, 0);
  return Math.min(1, off / total);
}
