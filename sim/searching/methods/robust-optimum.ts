import { z } from 'zod';
import { quantity } from '../../../shared/schema/quantity.ts';
import { defineMethod } from '../method.ts';
import { effortField } from '../options.ts';
import { optimumFields, optimumLearner } from './optimum.ts';

/** The best design for nearly all vehicles that could come of it, instead of for the one in the drawing. */
export const robustOptimum = defineMethod({
  kind: 'robust-optimum',
  title: 'Robust best design',
  source: 'percentile of inner samples, the same for every design; search as for the best design',
  fields: z.strictObject({
    designs: optimumFields.shape.designs,
    samples: effortField(
      32,
      'Vehicles drawn from the spreads for each design, the same draws for all designs.',
    ),
    percentile: quantity(
      'ratio',
      'Share of these vehicles that must be as good as what a design is judged by.',
      {
        above: 0,
        below: 1,
      },
    ).default(0.95),
  }),
  goals: { least: 1, most: Number.POSITIVE_INFINITY },
  inner: ({ samples, percentile }) => ({ samples, percentile }),
  learner: optimumLearner,
});
