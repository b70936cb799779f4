import { z } from 'zod';
import { quantity } from '../../shared/schema/quantity.ts';
import { atMostOne, exactlyOne } from './choices.ts';
import { defineElement } from './element.ts';
import { hooke } from './hooke.ts';

const wire = z
  .strictObject({
    diameter: quantity('length', 'Diameter of the wire.', { least: 1e-5, most: 1 }),
    coilDiameter: quantity('length', 'Mean diameter of the coil: outside diameter less one wire.', {
      least: 1e-4,
      most: 10,
    }),
    activeCoils: quantity('ratio', 'Coils that can move: all coils less the closed ends.', {
      least: 0.1,
      most: 1000,
    }),
    shearModulus: quantity('stress', 'Shear modulus of the wire; spring steel about 80 GPa.', {
      least: 1e3,
      most: 1e13,
    }),
  })
  .meta({ description: 'A round-wire coil spring, when its rate is not known.' });

/**
 * Rate of a coil spring of round wire, N/m: c = G·d⁴/(8·D³·n), d the wire, D the mean coil, n the active coils.
 * Source: EN 13906-1, compression springs; the same in every handbook of machine elements.
 */
export function coilRate(spring: z.output<typeof wire>): number {
  return (spring.shearModulus * spring.diameter ** 4) / (8 * spring.coilDiameter ** 3 * spring.activeCoils);
}

/** Coil spring with a straight characteristic. */
export const linearSpring = defineElement({
  kind: 'linear-spring',
  title: 'Linear spring',
  acts: ['travel'],
  source: "Hooke's law; rate from wire: EN 13906-1",
  fields: z
    .strictObject({
      rate: quantity('stiffness', 'Rate of ONE spring.', { least: 1e-6, most: 1e12 }).optional(),
      wire: wire.optional(),
      preload: quantity(
        'force',
        'Force with which ONE spring pushes in the drawn position; 0 when left out.',
        { least: -1e9, most: 1e9 },
      ).optional(),
      freeAt: quantity(
        'length',
        'Travel at which the spring is free, bump positive (so mostly negative); instead of a preload.',
        { least: -1000, most: 1000 },
      ).optional(),
      pushOnly: z.boolean().default(true).meta({
        description:
          'Whether the spring lies loose between its seats and cannot pull. False for one that is fastened at both ends.',
      }),
    })
    .superRefine(exactlyOne('rate', 'wire'))
    .superRefine(atMostOne('preload', 'freeAt'))
    .meta({
      eitherOf: [
        [
          { rate: 1200 },
          { wire: { diameter: 0.001, coilDiameter: 0.012, activeCoils: 4.8, shearModulus: 80e9 } },
        ],
      ],
    }),
  law: (p) => hooke({ ...p, rate: p.rate ?? (p.wire === undefined ? 0 : coilRate(p.wire)), damping: 0 }),
  sample: { rate: 1200, preload: 12 },
  range: [-0.03, 0.05],
});
