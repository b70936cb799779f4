import { z } from 'zod';
import { quantity } from '../../../shared/schema/quantity.ts';
import { definePart, straightThrough } from '../part.ts';

/** A differential between axle lines, or between the two sides of one. */
export const differential = definePart({
  kind: 'differential',
  title: 'Differential',
  sort: 'differential',
  source: 'torque balance of a bevel differential, texts on drivelines',
  fields: z
    .strictObject({
      mode: z
        .enum(['open', 'locked', 'limited'])
        .default('open')
        .meta({ description: "How it works now: 'open', 'locked' (its outputs turn alike) or 'limited'." }),
      lockable: z.boolean().default(false).meta({ description: 'Whether it can be locked on command.' }),
      locked: z.boolean().default(false).meta({ description: 'Lockable: whether it is locked now.' }),
      bias: quantity('ratio', 'Limited: most that the slower side gets, over the torque of the faster one.', {
        least: 1,
        most: 100,
      }).default(1),
      preload: quantity('torque', 'Limited: torque that it passes besides.', { least: 0, most: 1e6 }).default(
        0,
      ),
      shares: z
        .array(quantity('ratio', 'Share of one output.', { above: 0, below: 1 }))
        .min(2)
        .max(8)
        .optional()
        .meta({ description: 'Shares of the outputs while open, in their order; equal when left out.' }),
    })
    .superRefine(({ lockable, locked }, context) => {
      if (locked && !lockable)
        context.addIssue({ code: 'custom', message: 'is true, and it is not lockable', path: ['locked'] });
    }),
  law: ({ mode, locked, bias, preload, shares }) => ({
    ...straightThrough,
    split: { mode: locked ? 'locked' : mode, bias, preload, ...(shares === undefined ? {} : { shares }) },
  }),
  sample: { mode: 'open' },
});
