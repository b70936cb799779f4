import { column, type Recording } from '../../shared/recording.ts';
import type { Moment } from '../../shared/report.ts';
import { type Flight, flights, longestOf } from './flights.ts';
import { greatestOf, leastOf, momentAt, momentOf, wheelStationAt } from './moments.ts';

/** A wheel's load at a telling moment. */
export interface LoadPeak {
  /** Index of the wheel. */
  readonly wheel: number;
  /** Vertical ground force on the axle line, N. */
  readonly load: number;
  /** The same over the standing load of the line; undefined where the line carries nothing when standing. */
  readonly share: number | undefined;
  readonly moment: Moment;
  /** The wheel's own station, m. */
  readonly wheelStation: number;
  /** The wheel's longest flight, if it had one: the load was 0 there. */
  readonly flight?: Flight;
}

/** Load over the standing load of an axle line; undefined where the line carries nothing when standing. */
export function shareOf(recording: Recording, wheel: number, load: number): number | undefined {
  const standing = recording.standing.loads[wheel] ?? 0;
  const share = load / standing;
  return standing > 0 && Number.isFinite(share) ? share : undefined;
}

/**
 * Least load of one wheel. Off the ground it is 0, also between two frames: then the moment is where its longest
 * flight began. Undefined when the recording has no finite load of it.
 */
export function leastLoad(
  recording: Recording,
  wheel: number,
  flightsOfAll: readonly Flight[],
): LoadPeak | undefined {
  const peak = leastOf(column(recording, 'load', wheel));
  const flight = longestOf(flightsOfAll.filter((f) => f.wheel === wheel && f.duration > 0));
  if (flight !== undefined && (peak === undefined || peak.value >= 0)) {
    const moment = momentAt(recording, { time: flight.from, station: flight.station });
    return {
      wheel,
      load: 0,
      share: shareOf(recording, wheel, 0),
      moment,
      wheelStation: flight.wheelStation,
      flight,
    };
  }
  return peak === undefined ? undefined : inFrame(recording, wheel, peak);
}

/** Greatest load of one wheel over all frames. Undefined when the recording has no finite load of it. */
export function greatestLoad(recording: Recording, wheel: number): LoadPeak | undefined {
  const peak = greatestOf(column(recording, 'load', wheel));
  return peak === undefined ? undefined : inFrame(recording, wheel, peak);
}

function inFrame(recording: Recording, wheel: number, peak: { value: number; frame: number }): LoadPeak {
  return {
    wheel,
    load: peak.value,
    share: shareOf(recording, wheel, peak.value),
    moment: momentOf(recording, peak.frame),
    wheelStation: wheelStationAt(recording, wheel, peak.frame),
  };
}

/**
 * The wheel, of these, that keeps the least share of its standing load; of equals the one with the longest flight.
 * A wheel that carries nothing when standing is passed over. Undefined when none has a share.
 */
export function leastShare(recording: Recording, wheels: readonly number[]): LoadPeak | undefined {
  const all = flights(recording);
  return wheels
    .flatMap((wheel) => leastLoad(recording, wheel, all) ?? [])
    .reduce<LoadPeak | undefined>((best, peak) => (isWorse(peak, best) ? peak : best), undefined);
}

function isWorse(peak: LoadPeak, best: LoadPeak | undefined): boolean {
  if (peak.share === undefined) return false;
  if (best?.share === undefined || peak.share < best.share) return true;
  return peak.share === best.share && (peak.flight?.duration ?? 0) > (best.flight?.duration ?? 0);
}
