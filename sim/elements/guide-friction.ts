import { z } from 'zod';
import { quantity } from '../../shared/schema/quantity.ts';
import { dryFriction } from './dry-friction.ts';
import { defineElement } from './element.ts';

/** Dry friction along a travel: in a guide, or in the seals of a damper. */
export const guideFriction = defineElement({
  kind: 'guide-friction',
  title: 'Guide friction',
  acts: ['travel'],
  source: 'dry friction after Prandtl and Jenkin: sticks elastically, slides at its limit',
  fields: z.strictObject({
    force: quantity('force', 'Force at which ONE guide or damper begins to move.', { least: 0, most: 1e9 }),
    breakaway: quantity('length', 'Elastic travel before it slides; about a hundredth of the whole travel.', {
      least: 1e-6,
      most: 10,
    }),
  }),
  law: (p) => dryFriction(p.force, p.breakaway),
  sample: { force: 0.8, breakaway: 0.0004 },
  range: [-0.01, 0.01],
});
