import { leastClearance } from '../clearance.ts';
import type { MeasureKind } from '../criterion.ts';
import { type MeasureHead, measured, ownDefinition } from './measure.ts';

const head: MeasureHead = {
  name: 'leastClearance',
  title: 'Least belly clearance',
  says: 'Least vertical gap between belly line and ground; none without a belly line.',
  source: ownDefinition,
  unit: 'm',
};

/** Smallest belly clearance of the run. */
export const clearanceMeasure: MeasureKind = {
  name: 'clearance',
  measure(run) {
    const least = leastClearance(run);
    return [measured(head, least?.value, { moment: least?.moment })];
  },
};
