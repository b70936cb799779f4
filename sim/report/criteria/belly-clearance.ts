import { z } from 'zod';
import { quantity } from '../../../shared/schema/quantity.ts';
import { bellyCause } from '../causes/belly.ts';
import { leastClearance } from '../clearance.ts';
import { defineCriterion } from '../criterion.ts';
import { because, withoutValue } from '../outcome.ts';
import { besideLimit, brokenOff, lengthWords, momentWords } from '../words.ts';

const fields = z.strictObject({
  least: quantity('length', 'Least gap between the belly line and the ground.', { least: 0, most: 100 }),
});

/** The belly keeps a gap to the ground throughout the run. */
export const bellyClearance = defineCriterion({
  kind: 'belly-clearance',
  title: 'Belly stays clear',
  fields,
  sample: { least: '5 mm' },
  asks: ({ least }) => `The belly keeps at least ${lengthWords(least)} above the ground`,
  judge({ least }, run) {
    const limit = { limit: least, unit: 'm' };
    const worst = leastClearance(run);
    if (worst === undefined) {
      return withoutValue(
        false,
        'The vehicle has no belly line to watch: draw one in vehicle.bodywork.belly.',
        limit,
      );
    }
    const { value, moment } = worst;
    const shown = besideLimit(lengthWords, value, least);
    const touch =
      value < 0
        ? `runs ${lengthWords(-value)} into the ground`
        : value === 0
          ? 'touches the ground'
          : `comes down to ${shown} above the ground`;
    const says = `The belly ${touch} (${momentWords(run, moment)}).${brokenOff(run)}`;
    return {
      pass: value >= least,
      value,
      ...limit,
      shown,
      says,
      ...because(bellyCause(run, moment.frame)),
      moment,
    };
  },
});
