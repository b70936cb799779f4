import { z } from 'zod';
import { nameOf, quantity } from '../../../shared/schema/quantity.ts';
import { whichRod } from '../fields.ts';
import { defineStrength } from '../kind.ts';
import { atThickness, materialField, materialOf } from '../material.ts';

/** A pin through lugs: shear in its section, pressure in the lug. */
export const pin = defineStrength({
  kind: 'pin',
  title: 'Pin',
  sort: 'pin',
  source: 'mean shear stress and bearing pressure, Shigley (bolted and pinned joints); shear yield 0.577·Sy',
  target: 'pin',
  safety: 'parts',
  fields: z.strictObject({
    member: nameOf('Member whose pin it is; or rod, or axle on rods, whose end pins they are.'),
    rod: whichRod,
    material: materialField,
    diameter: quantity('length', 'Diameter of the pin.', { least: 1e-5, most: 10 }),
    shear: z.enum(['single', 'double']).default('double').meta({
      description: "Sections that share the force: 'double' in a fork, 'single' for a stub held at one side.",
    }),
    lug: quantity('length', 'Thickness of the lug or eye that presses on the pin.', {
      least: 1e-5,
      most: 10,
    }),
    lugMaterial: materialField
      .optional()
      .meta({ description: 'Material of the lug; that of the pin when left out.' }),
  }),
  judge: ({ diameter, shear, lug, lugMaterial, ...p }, { count, safety }) => {
    const material = atThickness(materialOf(p.material), diameter);
    const area = ((shear === 'double' ? 2 : 1) * Math.PI * diameter ** 2) / 4;
    const eye = lugMaterial === undefined ? material : atThickness(materialOf(lugMaterial), lug);
    const softer = eye.yield < material.yield ? eye : material;
    return {
      checks: [
        {
          quantity: 'shear stress',
          unit: 'Pa',
          per: { force: 1 / (area * count) },
          limit: material.shearYield / safety,
          safety,
          material,
        },
        {
          quantity: 'bearing pressure',
          unit: 'Pa',
          per: { force: 1 / (diameter * lug * count) },
          limit: softer.yield / safety,
          safety,
          material: softer,
        },
      ],
    };
  },
  sample: { member: 'rear-bogie', material: 'mild-steel', diameter: '3 mm', lug: '4 mm' },
});
