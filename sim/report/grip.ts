import { column, type Recording, type RunEvent } from '../../shared/recording.ts';
import type { Moment } from '../../shared/report.ts';
import { greatestOf, momentAt, momentOf, wheelStationAt } from './moments.ts';

/** Greatest share of its grip that a wheel used. */
export interface GripPeak {
  readonly wheel: number;
  /** Tangential force over what grip allows, 0 to 1. */
  readonly value: number;
  readonly moment: Moment;
  /** The wheel's own station, m. */
  readonly wheelStation: number;
}

/** Greatest grip use of one wheel; 1 where an event says that its limit was reached between two frames. */
export function greatestGrip(recording: Recording, wheel: number): GripPeak | undefined {
  const peak = greatestOf(column(recording, 'gripUse', wheel));
  const name = recording.wheels[wheel];
  const limit = recording.events.find(
    (event): event is Extract<RunEvent, { kind: 'grip-limit' }> =>
      event.kind === 'grip-limit' && event.wheel === name,
  );
  if (limit !== undefined && (peak === undefined || peak.value < 1)) {
    return { wheel, value: 1, moment: momentAt(recording, limit), wheelStation: limit.wheelStation };
  }
  return (
    peak && {
      wheel,
      value: peak.value,
      moment: momentOf(recording, peak.frame),
      wheelStation: wheelStationAt(recording, wheel, peak.frame),
    }
  );
}

/** The one of these wheels that used the most of its grip; undefined when none has a figure. */
export function mostGrip(recording: Recording, wheels: readonly number[]): GripPeak | undefined {
  return wheels
    .flatMap((wheel) => greatestGrip(recording, wheel) ?? [])
    .reduce<GripPeak | undefined>(
      (best, peak) => (best === undefined || peak.value > best.value ? peak : best),
      undefined,
    );
}
