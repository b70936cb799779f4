import { z } from 'zod';
import { quantity } from '../../shared/schema/quantity.ts';
import { atMostOne, exactlyOne } from './choices.ts';
import { defineElement } from './element.ts';
import { hooke } from './hooke.ts';
import { section, torsionConstant, torsionModulus } from './section.ts';

const bar = z
  .strictObject({
    shearModulus: quantity(
      'stress',
      'Shear modulus of the bar; steel about 80 GPa, plastics 0.5 to 1.5 GPa.',
      { least: 1e3, most: 1e13 },
    ),
    length: quantity('length', 'Length that twists, between the sockets.', { least: 1e-4, most: 100 }),
    section,
  })
  .meta({ description: 'A straight bar of one section, when its rate is not known.' });

/**
 * Rate of a straight bar, N·m/rad: c = G·K/L, K the torsion constant of its section, m⁴.
 * Source: Saint-Venant torsion, every text on strength of materials.
 */
export function barRate(p: z.output<typeof bar>): number {
  return (p.shearModulus * torsionConstant(p.section)) / p.length;
}

/** Torsion bar on the pivot of an arm or beam: twists both ways. */
export const torsionBar = defineElement({
  kind: 'torsion-bar',
  title: 'Torsion bar',
  acts: ['twist'],
  source: 'Saint-Venant torsion, c = G·K/L; constants of the sections in section.ts',
  fields: z
    .strictObject({
      rate: quantity('torsionStiffness', 'Rate of ONE bar.', { least: 1e-9, most: 1e12 }).optional(),
      bar: bar.optional(),
      preload: quantity(
        'torque',
        'Torque with which ONE bar presses the arm down in the drawn position; 0 when left out.',
        { least: -1e9, most: 1e9 },
      ).optional(),
      freeAt: quantity(
        'angle',
        'Turn of the arm at which the bar is free, bump positive (so mostly negative); instead of a preload.',
        { least: -100, most: 100 },
      ).optional(),
      damping: quantity('torsionDamping', 'Damping rate of ONE bar with its bearings.', {
        least: 0,
        most: 1e9,
      }).default(0),
    })
    .superRefine(exactlyOne('rate', 'bar'))
    .superRefine(atMostOne('preload', 'freeAt'))
    .meta({
      eitherOf: [
        [
          { rate: 12 },
          { bar: { shearModulus: 80e9, length: 0.053, section: { shape: 'round', diameter: 0.003 } } },
        ],
      ],
    }),
  law: (p) => hooke({ ...p, rate: p.rate ?? (p.bar === undefined ? 0 : barRate(p.bar)), pushOnly: false }),
  bar: (p) => p.bar && { modulus: torsionModulus(p.bar.section), length: p.bar.length },
  sample: { rate: 12, freeAt: -0.35, damping: 0.02 },
  range: [-0.6, 0.6],
});
