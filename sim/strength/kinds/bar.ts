import { z } from 'zod';
import { nameOf, quantity } from '../../../shared/schema/quantity.ts';
import { section, torsionModulus } from '../../elements/section.ts';
import { defineStrength } from '../kind.ts';
import { atThickness, materialField, materialOf } from '../material.ts';
import { repeatsOf } from '../repeats.ts';
import { thicknessOf } from '../torque.ts';

/** A torsion bar: shear at its surface, and twist where that has a limit. */
export const bar = defineStrength({
  kind: 'bar',
  title: 'Torsion bar',
  sort: 'bar',
  source:
    'shear stress T/W: Saint-Venant torsion, Timoshenko & Goodier; repeated loads: Goodman, Zimmerli (1957)',
  target: 'element',
  elements: ['torsion-bar'],
  safety: 'springs',
  fields: z.strictObject({
    element: nameOf('The torsion bar.'),
    material: materialField,
    section: section.optional(),
    mostTwist: quantity('angle', 'Twist that ONE bar or its sockets allow.', {
      above: 0,
      most: 100,
    }).optional(),
  }),
  judge: ({ section: own, mostTwist, ...p }, { count, safety, element }) => {
    const material = materialOf(p.material);
    const known = element?.bar;
    if ((own === undefined) === (known === undefined))
      return { checks: [], missing: sectionOnce(own !== undefined) };
    const thickness = own === undefined ? (known?.thickness ?? 0) : thicknessOf(own);
    const per = 1 / ((own === undefined ? (known?.modulus ?? 0) : torsionModulus(own)) * count);
    const limit = atThickness(material, thickness).shearYield / safety;
    const stress = {
      quantity: 'shear stress',
      unit: 'Pa',
      per: { torque: per },
      limit,
      safety,
      material,
    } as const;
    const rate = element?.rate;
    const turn = { quantity: 'twist', unit: 'rad', safety: 1 } as const;
    const checks =
      mostTwist === undefined || rate === undefined
        ? [stress]
        : [stress, { ...turn, per: { torque: 1 / (rate * count) }, limit: mostTwist }];
    return { checks, repeats: repeatsOf(material, thickness, per) };
  },
  sample: { element: 'rear bars', material: 'spring-steel', section: { shape: 'round', diameter: '2 mm' } },
});

const sectionOnce = (twice: boolean) => ({
  field: 'section',
  message: twice ? 'is in the element already' : 'is missing, and the element has a rate only',
  hint: twice ? 'leave it out here' : 'give the section of the bar here',
});
