import { z } from 'zod';
import { quantity } from '../../shared/schema/quantity.ts';
import { defineElement } from './element.ts';
import { withinReach } from './reach.ts';

/** Viscous damper with its own rate in each direction. */
export const damper = defineElement({
  kind: 'damper',
  title: 'Damper',
  acts: ['travel'],
  source: 'viscous damper with two rates: common practice, no source',
  fields: z.strictObject({
    bump: quantity('damping', 'Damping rate of ONE damper in bump (pressed together).', {
      least: 0,
      most: 1e9,
    }),
    rebound: quantity(
      'damping',
      'Damping rate of ONE damper in rebound (drawn out); that of bump when left out.',
      { least: 0, most: 1e9 },
    ).optional(),
  }),
  /** Effort −d·v, with d by the sign of v: continuous through v = 0. */
  law: ({ bump, rebound = bump }) => ({
    memory: 0,
    energy: () => 0,
    spring: () => 0,
    loss: (_x, v) => -(v > 0 ? bump : rebound) * withinReach(v),
    stiffness: () => 0,
    damping: Math.max(bump, rebound),
    corners: [],
  }),
  sample: { bump: 12, rebound: 20 },
  range: [-0.05, 0.05],
});
