import type { MeasureKind } from '../criterion.ts';
import { momentAt } from '../moments.ts';
import { type MeasureHead, measured, ownDefinition } from './measure.ts';

const head: MeasureHead = {
  name: 'timeTaken',
  title: 'Time taken',
  says: 'Model time from the start of the drive to the end of the run.',
  source: ownDefinition,
  unit: 's',
};

/** How long the run took, in model time. */
export const timeMeasure: MeasureKind = {
  name: 'time',
  measure: ({ recording }) => [
    measured(head, recording.end.time, { moment: momentAt(recording, recording.end) }),
  ],
};
