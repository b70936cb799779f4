import { column, type RunEvent } from '../../shared/recording.ts';
import type { Moment } from '../../shared/report.ts';
import type { Run } from './criterion.ts';
import { leastOf, momentAt, momentOf } from './moments.ts';

/**
 * Least gap between belly line and ground over the run, m, and its moment. A touch between two frames counts as 0.
 * Undefined when the vehicle has no belly line.
 */
export function leastClearance({
  mechanism,
  recording,
}: Run): { readonly value: number; readonly moment: Moment } | undefined {
  if (mechanism.belly.points.length === 0) return undefined;
  const peak = leastOf(column(recording, 'clearance'));
  const touch = recording.events.find(
    (event): event is Extract<RunEvent, { kind: 'body-touch' }> => event.kind === 'body-touch',
  );
  if (touch !== undefined && (peak === undefined || peak.value > 0))
    return { value: 0, moment: momentAt(recording, touch) };
  return peak && { value: peak.value, moment: momentOf(recording, peak.frame) };
}
