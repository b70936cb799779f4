import { z } from 'zod';
import { defineMethod } from '../method.ts';
import { effortField } from '../options.ts';
import { mostDimensions, sobol } from '../sobol.ts';
import { valueAtShare } from '../space.ts';

/** Designs spread evenly over the whole space, however many numbers vary. */
export const lowDiscrepancy = defineMethod({
  kind: 'low-discrepancy',
  title: 'Even sampling',
  source: "Sobol' sequence with the direction numbers of Joe and Kuo (2008) and a random digital shift",
  fields: z.strictObject({
    designs: effortField(256, 'Designs to evaluate; powers of two are spread most evenly.'),
  }),
  goals: { least: 0, most: Number.POSITIVE_INFINITY },
  check: ({ space }) =>
    space.length <= mostDimensions
      ? []
      : [
          {
            path: '',
            message: `varies ${space.length} numbers, even sampling takes at most ${mostDimensions}`,
            hint: 'let fewer of them vary',
            severity: 'error',
          },
        ],
  plan({ space, options, seed }) {
    const shares = sobol(space.length, seed);
    return {
      size: options.designs,
      point: (index) => {
        const at = shares(index);
        return space.map((axis, i) => valueAtShare(axis, at[i] as number));
      },
    };
  },
});
