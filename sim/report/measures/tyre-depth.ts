import { column } from '../../../shared/recording.ts';
import type { MeasureKind } from '../criterion.ts';
import { greatestOf, momentOf } from '../moments.ts';
import { type MeasureHead, measured, ownDefinition } from './measure.ts';

const head: MeasureHead = {
  name: 'wheelTyreDepth',
  title: 'Greatest depth of the tyre',
  says: 'Greatest depth of the ground in the tyre, across the contact.',
  source: ownDefinition,
  unit: 'm',
};

/** How deep the ground went into each tyre. */
export const tyreDepthMeasure: MeasureKind = {
  name: 'tyreDepth',
  measure: ({ recording }) =>
    recording.wheels.map((of, wheel) => {
      const peak = greatestOf(column(recording, 'depth', wheel));
      return measured(head, peak?.value, { of, moment: peak && momentOf(recording, peak.frame) });
    }),
};
