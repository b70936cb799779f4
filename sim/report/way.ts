import { column } from '../../shared/recording.ts';
import type { Moment } from '../../shared/report.ts';
import type { Run } from './criterion.ts';
import { greatestOf, leastOf, momentAt, momentOf } from './moments.ts';

/** +1 for a vehicle that drives forward (or parks), −1 for one that drives backwards: its stations fall. */
export const senseOf = ({ mechanism }: Run): 1 | -1 => (mechanism.drive.speed < 0 ? -1 : 1);

/** Station furthest along the way over the run, m, its end included, and when it was reached. */
export function furthestStation(run: Run): { readonly value: number; readonly moment: Moment } {
  const { recording } = run;
  const sense = senseOf(run);
  const stations = column(recording, 'station');
  const peak = sense > 0 ? greatestOf(stations) : leastOf(stations);
  if (peak === undefined || sense * (recording.end.station - peak.value) > 0) {
    return { value: recording.end.station, moment: momentAt(recording, recording.end) };
  }
  return { value: peak.value, moment: momentOf(recording, peak.frame) };
}
