import { z } from 'zod';
import { quantity } from '../../shared/schema/quantity.ts';

/** Safety factors when a document says nothing; see the descriptions in shared/schema/scenario.ts for why. */
export const usualSafety = { parts: 2, springs: 1.2, none: 1 } as const;

/** Which rod of an axle on rods. */
export const whichRod = z
  .enum(['lower', 'upper'])
  .optional()
  .meta({ description: 'Which rod, where the member is an axle on rods.' });

/** Fields that all strength entries have, besides kind. */
export const strengthFields = {
  count: z.int().min(1).max(100).optional().meta({
    description:
      'Equal ones side by side that share the load: 2 for one on each side. 1 when left out; springs and bars have the count of their element.',
    unit: '1',
  }),
  safety: quantity('ratio', 'Safety factor wanted for this part; that of the vehicle when left out.', {
    least: 1,
    most: 20,
  }).optional(),
};
