import { z } from 'zod';
import { quantity } from '../../shared/schema/quantity.ts';
import { dryFriction } from './dry-friction.ts';
import { defineElement } from './element.ts';

/** Dry friction in the pivot of an arm or beam. */
export const pivotFriction = defineElement({
  kind: 'pivot-friction',
  title: 'Pivot friction',
  acts: ['twist'],
  source: 'dry friction after Prandtl and Jenkin: sticks elastically, slides at its limit',
  fields: z.strictObject({
    torque: quantity('torque', 'Torque at which ONE pivot begins to turn.', { least: 0, most: 1e9 }),
    breakaway: quantity('angle', 'Elastic turn before it slides; 0.005 rad (0.3 deg) when left out.', {
      least: 1e-5,
      most: 1,
    }).default(0.005),
  }),
  law: (p) => dryFriction(p.torque, p.breakaway),
  sample: { torque: 0.06, breakaway: 0.004 },
  range: [-0.1, 0.1],
});
