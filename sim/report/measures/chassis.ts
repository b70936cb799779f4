import { type Channel, column, type Recording } from '../../../shared/recording.ts';
import type { Measure } from '../../../shared/report.ts';
import type { MeasureKind } from '../criterion.ts';
import { greatestOf, leastOf, momentOf } from '../moments.ts';
import { type MeasureHead, measured, ownDefinition } from './measure.ts';

const pitchUp: MeasureHead = {
  name: 'pitchUp',
  title: 'Most nose-up',
  says: 'Greatest chassis pitch against the drawn position, nose-up positive.',
  source: ownDefinition,
  unit: 'rad',
};
const pitchDown: MeasureHead = {
  name: 'pitchDown',
  title: 'Most nose-down',
  says: 'Least chassis pitch against the drawn position, nose-up positive.',
  source: ownDefinition,
  unit: 'rad',
};
const heaveUp: MeasureHead = {
  name: 'heaveAccelerationUp',
  title: 'Peak heave acceleration upwards',
  says: 'Greatest vertical acceleration of the chassis at its centre of mass, mean over one frame.',
  source: ownDefinition,
  unit: 'm/s²',
};
const heaveDown: MeasureHead = {
  name: 'heaveAccelerationDown',
  title: 'Peak heave acceleration downwards',
  says: 'Least vertical acceleration of the chassis at its centre of mass, mean over one frame; downwards negative.',
  source: ownDefinition,
  unit: 'm/s²',
};

/** Peaks of the chassis' pitch and heave acceleration, both ways. */
export const chassisMeasure: MeasureKind = {
  name: 'chassis',
  measure: ({ recording }) => [
    peak(recording, 'pitch', pitchUp, greatestOf),
    peak(recording, 'pitch', pitchDown, leastOf),
    // a crawl has no inertia
    ...(recording.mode === 'drive'
      ? [
          peak(recording, 'heaveAcceleration', heaveUp, greatestOf),
          peak(recording, 'heaveAcceleration', heaveDown, leastOf),
        ]
      : []),
  ],
};

function peak(recording: Recording, channel: Channel, head: MeasureHead, find: typeof greatestOf): Measure {
  const found = find(column(recording, channel));
  return measured(head, found?.value, { moment: found && momentOf(recording, found.frame) });
}
