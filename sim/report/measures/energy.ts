import { column } from '../../../shared/recording.ts';
import type { MeasureKind, Run } from '../criterion.ts';
import { momentOf, type Peak } from '../moments.ts';
import { type MeasureHead, measured, ownDefinition } from './measure.ts';

const head: MeasureHead = {
  name: 'energyResidual',
  title: 'Energy audit residual',
  says: 'Greatest difference between the work of the drive and what was stored and lost by then, over the greatest work of the run; 0 is a perfect audit.',
  source: ownDefinition,
  unit: '1',
};

/** How well work = stored + lost holds over the run. No value where the drive did no work to speak of. */
export const energyMeasure: MeasureKind = {
  name: 'energy',
  measure(run) {
    // a crawl lets what no balance holds (a wheel that drops) go unaccounted: the audit is for drives
    if (run.recording.mode !== 'drive') return [];
    const worst = residual(run);
    return [measured(head, worst?.value, { moment: worst && momentOf(run.recording, worst.frame) })];
  },
};

/**
 * Greatest |work − energy − lost| over the greatest |work|. Undefined below a millionth of the work that lifts the
 * vehicle by a wheel radius: a parked vehicle has no work to hold a residual against.
 */
function residual({ mechanism, recording }: Run): Peak | undefined {
  const work = column(recording, 'work');
  const energy = column(recording, 'energy');
  const lost = column(recording, 'lost');
  let greatestWork = 0;
  let worst: Peak = { value: 0, frame: 0 };
  for (let frame = 0; frame < recording.frames; frame++) {
    const done = work[frame] ?? 0;
    greatestWork = Math.max(greatestWork, Math.abs(done));
    const value = Math.abs(done - (energy[frame] ?? 0) - (lost[frame] ?? 0));
    if (value > worst.value) worst = { value, frame };
  }
  const least = 1e-6 * mechanism.mass * mechanism.gravity * mechanism.size;
  return greatestWork > least ? { value: worst.value / greatestWork, frame: worst.frame } : undefined;
}
