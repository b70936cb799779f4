import { z } from 'zod';
import { nameOf, quantity } from '../../../shared/schema/quantity.ts';
import { defineStrength, type Leaves } from '../kind.ts';
import { atThickness, materialField, materialOf } from '../material.ts';

const leavesOf = z
  .strictObject({
    count: z.int().min(1).max(50).meta({ description: 'Leaves of full length, all alike.', unit: '1' }),
    width: quantity('length', 'Width of a leaf.', { least: 1e-5, most: 10 }),
    thickness: quantity('length', 'Thickness of a leaf.', { least: 1e-6, most: 1 }),
    span: quantity('length', 'Free length: eye to eye, or from the clamp to the tip.', {
      least: 1e-4,
      most: 100,
    }),
    held: z
      .enum(['at both ends', 'at one end'])
      .default('at both ends')
      .meta({ description: 'At both ends with the load in the middle, or clamped at one end.' }),
  })
  .meta({ description: 'The leaves, where the element has a rate only.' });

/** A leaf spring of equal leaves: bending stress in each. */
export const leaf = defineStrength({
  kind: 'leaf',
  title: 'Leaf spring',
  sort: 'spring',
  source:
    "beam bending 6·M/(n·b·t²), M = F·L/4 held at both ends, F·L at one: Roark's Formulas (from memory)",
  target: 'element',
  elements: ['leaf-spring'],
  safety: 'springs',
  fields: z.strictObject({
    element: nameOf('The leaf spring.'),
    material: materialField,
    leaves: leavesOf.optional(),
  }),
  judge: ({ leaves: own, ...p }, { count, safety, element }) => {
    const known = element?.leaves;
    const leaves: Leaves | undefined = own ?? known;
    if (leaves === undefined || (own !== undefined && known !== undefined))
      return { checks: [], missing: leavesOnce(leaves !== undefined) };
    const material = atThickness(materialOf(p.material), leaves.thickness);
    const lever = leaves.held === 'at one end' ? leaves.span : leaves.span / 4;
    const modulus = (leaves.count * leaves.width * leaves.thickness ** 2) / 6;
    return {
      checks: [
        {
          quantity: 'bending stress',
          unit: 'Pa',
          per: { force: lever / (modulus * count) },
          limit: material.yield / safety,
          safety,
          material,
        },
      ],
    };
  },
  sample: {
    element: 'front springs',
    material: 'spring-steel',
    leaves: { count: 1, width: '20 mm', thickness: '1.5 mm', span: '160 mm' },
  },
});

const leavesOnce = (twice: boolean) => ({
  field: 'leaves',
  message: twice ? 'are in the element already' : 'are missing, and the element has a rate only',
  hint: twice ? 'leave them out here' : 'give the leaves here',
});
