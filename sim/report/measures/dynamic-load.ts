import { column } from '../../../shared/recording.ts';
import type { MeasureKind } from '../criterion.ts';
import { type MeasureHead, measured } from './measure.ts';

const head: MeasureHead = {
  name: 'wheelDynamicLoadCoefficient',
  title: 'Dynamic load coefficient',
  says: 'Standard deviation of the load of the axle line over its mean, over the frames of the run.',
  source:
    'dynamic load coefficient of road-wear research: Sweatman 1983, A study of dynamic wheel forces in axle group suspensions of heavy vehicles (title and definition from memory)',
  unit: '1',
};

/**
 * Standard deviation over mean of a series; undefined when it is empty or its mean is not above zero. Two passes, so
 * that a small spread on a large mean keeps its digits.
 */
export function dynamicLoadCoefficient(loads: Float64Array): number | undefined {
  const mean = loads.reduce((sum, load) => sum + load, 0) / loads.length;
  if (!(mean > 0)) return undefined;
  const variance = loads.reduce((sum, load) => sum + (load - mean) ** 2, 0) / loads.length;
  return Math.sqrt(variance) / mean;
}

/** Dynamic load coefficient of each wheel. */
export const dynamicLoadMeasure: MeasureKind = {
  name: 'dynamicLoad',
  measure: ({ recording }) =>
    recording.wheels.map((of, wheel) =>
      measured(head, dynamicLoadCoefficient(column(recording, 'load', wheel)), { of }),
    ),
};
