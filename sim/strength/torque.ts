import { z } from 'zod';
import { quantity } from '../../shared/schema/quantity.ts';
import { section, torsionModulus } from '../elements/section.ts';
import { toothStress } from './formulas.ts';
import { atThickness, materialField, materialOf } from './material.ts';

type TorsionSection = z.output<typeof section>;

/** Thickness of a bar's section by which drawn wire has its strength, m: diameter, or the thinner side. */
export function thicknessOf(s: TorsionSection): number {
  switch (s.shape) {
    case 'round':
      return s.diameter;
    case 'tube':
      return (s.outside - s.inside) / 2;
    case 'rectangle':
      return Math.min(s.width, s.height);
    case 'plus':
      return s.arm;
  }
}

const tooth = z.int().min(6).max(10_000).meta({ description: 'Number of teeth.', unit: '1' });

const gear = z
  .strictObject({
    module: quantity('length', 'Module: pitch diameter over teeth.', { least: 1e-5, most: 1 }),
    width: quantity('length', 'Width over which the teeth meet.', { least: 1e-5, most: 10 }),
    teeth: z.tuple([tooth, tooth]).meta({ description: 'Teeth of the driving and the driven wheel.' }),
  })
  .meta({ description: 'Teeth of 20° pressure angle and full depth.' });

/** A torque rating that is estimated from material and section. */
export const estimatedField = z
  .strictObject({
    material: materialField,
    section: section.optional(),
    gear: gear.optional(),
    safety: quantity('ratio', 'Safety factor that the rating has in it.', { least: 1, most: 20 }).default(2),
  })
  .superRefine((p, context) => {
    if ((p.section === undefined) === (p.gear === undefined))
      context.addIssue({
        code: 'custom',
        message: 'needs `section` (a shaft) or `gear` (teeth), one of them',
        path: ['section'],
      });
  })
  .meta({
    eitherOf: [
      [
        { section: { shape: 'round', diameter: 0.004 } },
        { gear: { module: 0.001, width: 0.008, teeth: [12, 36] } },
      ],
    ],
    description:
      'Estimated from material and section of a shaft, or from the teeth of a gear pair: a guide, not a measurement.',
  });

/** How far Lewis' one tooth at its tip lies from gears as they are made, ±: sharing, root fillet, wear. Common practice, no source. */
const TOOTH_SPREAD = 0.3;

/**
 * Torque that ONE shaft or gear pair may carry at its output, N·m, with the spread of material and formula, ±.
 * - shaft: shear yield · W / safety. Source: Saint-Venant torsion, sections in sim/elements/section.ts.
 * - gear pair: yield · b·m·Y of the weaker wheel, times m·z/2 of the driven one, / safety; slow teeth, no dynamic factor.
 *   Source: Lewis; Shigley, spur gears.
 */
export function estimatedTorque(p: z.output<typeof estimatedField>): {
  readonly torque: number;
  readonly spread: number;
} {
  if (p.gear !== undefined) {
    const { module, width, teeth } = p.gear;
    const material = atThickness(materialOf(p.material), module);
    const weaker = Math.max(...teeth.map((z) => toothStress(1, width, module, z)));
    const force = material.yield / weaker;
    return {
      torque: (force * module * teeth[1]) / 2 / p.safety,
      spread: Math.hypot(material.spread, TOOTH_SPREAD),
    };
  }
  if (p.section === undefined) return { torque: 0, spread: 0 };
  const { shearYield, spread } = atThickness(materialOf(p.material), thicknessOf(p.section));
  return { torque: (shearYield * torsionModulus(p.section)) / p.safety, spread };
}
