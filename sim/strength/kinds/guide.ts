import { z } from 'zod';
import { nameOf, quantity } from '../../../shared/schema/quantity.ts';
import { defineStrength } from '../kind.ts';
import { atThickness, materialField, materialOf } from '../material.ts';

/** A sliding guide: pressure from the force across it and from the moment that it holds. */
export const guide = defineStrength({
  kind: 'guide',
  title: 'Guide',
  sort: 'pin',
  source:
    'pressure on a rectangle under force and moment, straight over its length: texts on strength of materials',
  target: 'guide',
  safety: 'parts',
  fields: z.strictObject({
    member: nameOf('Axle that the guide guides.'),
    material: materialField,
    engaged: quantity('length', 'Length over which slide and guide touch.', { least: 1e-5, most: 10 }),
    width: quantity('length', 'Width or diameter of the slide, across the vehicle.', {
      least: 1e-5,
      most: 10,
    }),
  }),
  judge: ({ engaged, width, ...p }, { count, safety }) => {
    const material = atThickness(materialOf(p.material), width);
    return {
      checks: [
        {
          quantity: 'bearing pressure',
          unit: 'Pa',
          per: { force: 1 / (engaged * width * count), moment: 6 / (engaged ** 2 * width * count) },
          limit: material.yield / safety,
          safety,
          material,
        },
      ],
    };
  },
  sample: { member: 'front-axle', material: 'mild-steel', engaged: '20 mm', width: '5 mm' },
});
