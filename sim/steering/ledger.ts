import { column, type Recording } from '../../shared/recording.ts';
import type { LedgerLine } from '../../shared/report.ts';
import type { Mechanism } from '../mechanism/mechanism.ts';
import type { Steering } from './steering.ts';
import { studySteering } from './study.ts';

/** Loads of all axle lines at the frame where the steered ones carry most together, N; undefined without frames. */
export function heaviestFrame(
  steering: Steering,
  recording: Recording,
): { readonly loads: readonly number[]; readonly frame: number } | undefined {
  if (recording.frames === 0) return undefined;
  const columns = recording.wheels.map((_, w) => column(recording, 'load', w));
  let [frame, most] = [0, -1];
  for (let f = 0; f < recording.frames; f++) {
    const sum = steering.lines.reduce((all, { wheel }) => all + (columns[wheel]?.[f] ?? 0), 0);
    if (sum > most) [frame, most] = [f, sum];
  }
  return { loads: columns.map((load) => load[frame] ?? 0), frame };
}

/** Lines of the ledger for all steerings: turning the wheels at standstill where they carry most along the crossing. */
export function steeringLines(mechanism: Mechanism, recording: Recording): LedgerLine[] {
  return (mechanism.steering ?? []).flatMap((steering) => {
    if (steering.lines.length === 0) return [];
    const worst = heaviestFrame(steering, recording);
    if (worst === undefined) return studySteering(mechanism, steering, recording.standing.loads).uses;
    const time = column(recording, 'time')[worst.frame] ?? 0;
    const station = column(recording, 'station')[worst.frame] ?? 0;
    return studySteering(mechanism, steering, worst.loads).uses.map((line) => ({
      ...line,
      moment: { frame: worst.frame, time, station },
    }));
  });
}
