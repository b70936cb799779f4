import { z } from 'zod';
import { quantity } from '../../../shared/schema/quantity.ts';
import { endCause } from '../causes/grip.ts';
import { defineCriterion } from '../criterion.ts';
import { momentAt } from '../moments.ts';
import { because } from '../outcome.ts';
import { besideLimit, endWords, timeWords } from '../words.ts';

const fields = z.strictObject({
  most: quantity('time', 'Longest time that the vehicle may take to the end of its run.', {
    above: 0,
    most: 3600,
  }),
});

/** The vehicle gets to the end of its run in time; one that never arrives is not in time. */
export const time = defineCriterion({
  kind: 'time',
  title: 'Arrives in time',
  fields,
  sample: { most: '12 s' },
  asks: ({ most }) => `The run takes at most ${timeWords(most)}`,
  judge({ most }, run) {
    const { end } = run.recording;
    const cause = endWords(run);
    const shown = besideLimit(timeWords, end.time, most);
    const says =
      cause === undefined ? `The run takes ${shown}.` : `The vehicle never arrives: after ${shown} ${cause}.`;
    const pass = cause === undefined && end.time <= most;
    return {
      pass,
      value: end.time,
      limit: most,
      unit: 's',
      shown,
      says,
      ...because(cause === undefined ? undefined : endCause(run)),
      moment: momentAt(run.recording, end),
    };
  },
});
