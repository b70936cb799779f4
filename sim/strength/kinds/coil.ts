import { z } from 'zod';
import { nameOf, quantity } from '../../../shared/schema/quantity.ts';
import { coilStress } from '../formulas.ts';
import { defineStrength, type StrengthCheck, type Wire } from '../kind.ts';
import { atThickness, materialField, materialOf } from '../material.ts';
import { repeatsOf } from '../repeats.ts';

const wireOf = z
  .strictObject({
    diameter: quantity('length', 'Diameter of the wire.', { least: 1e-5, most: 1 }),
    coilDiameter: quantity('length', 'Mean diameter of the coil: outside diameter less one wire.', {
      least: 1e-4,
      most: 10,
    }),
  })
  .meta({ description: 'The wire, where the element has a rate only.' });

/** A coil spring of round wire: shear in the wire, and the length at which its coils touch. */
export const coil = defineStrength({
  kind: 'coil',
  title: 'Coil spring',
  sort: 'spring',
  source: "Wahl's stress Kw·8·F·D/(π·d³): EN 13906-1, Shigley; repeated loads: Goodman, Zimmerli (1957)",
  target: 'element',
  elements: ['linear-spring'],
  safety: 'springs',
  fields: z
    .strictObject({
      element: nameOf('The spring.'),
      material: materialField,
      wire: wireOf.optional(),
      freeLength: quantity('length', 'Length without load.', { above: 0, most: 100 }).optional(),
      solidLength: quantity('length', 'Length at which its coils touch.', { above: 0, most: 100 }).optional(),
    })
    .superRefine(({ freeLength, solidLength }, context) => {
      const one = freeLength === undefined || solidLength === undefined;
      if (one ? freeLength === solidLength : solidLength < freeLength) return;
      context.addIssue({
        code: 'custom',
        message: one ? 'needs `freeLength` and `solidLength` together' : 'must be shorter than `freeLength`',
        path: ['solidLength'],
      });
    }),
  judge: (p, { count, safety, element }) => {
    const material = materialOf(p.material);
    const known = element?.wire;
    const wire: Wire | undefined = p.wire ?? known;
    if (wire === undefined || (p.wire !== undefined && known !== undefined))
      return { checks: [], missing: wireOnce(wire !== undefined) };
    if (!(wire.coilDiameter > wire.diameter * 1.5))
      return {
        checks: [],
        missing: {
          field: 'wire',
          message: 'is too thick for its coil',
          hint: 'the mean coil is 4 to 12 wires wide as a rule',
        },
      };
    const per = coilStress(wire.diameter, wire.coilDiameter) / count;
    const stress: StrengthCheck = {
      quantity: 'shear stress',
      unit: 'Pa',
      per: { force: per },
      limit: atThickness(material, wire.diameter).shearYield / safety,
      safety,
      material,
    };
    const solid = solidCheck(p.freeLength, p.solidLength, (element?.rate ?? 0) * count);
    return { checks: [stress, ...solid], repeats: repeatsOf(material, wire.diameter, per) };
  },
  sample: {
    element: 'front springs',
    material: 'music-wire',
    wire: { diameter: '1.3 mm', coilDiameter: '10 mm' },
  },
});

/** How far ONE is pressed of what it may be until its coils touch; `rate` of all together, N/m. */
function solidCheck(free: number | undefined, solid: number | undefined, rate: number): StrengthCheck[] {
  if (free === undefined || solid === undefined || !(rate > 0)) return [];
  return [
    { quantity: 'way to solid length', unit: 'm', per: { force: 1 / rate }, limit: free - solid, safety: 1 },
  ];
}

const wireOnce = (twice: boolean) => ({
  field: 'wire',
  message: twice ? 'is in the element already' : 'is missing, and the element has a rate only',
  hint: twice ? 'leave it out here' : 'give diameter and coilDiameter of the wire here',
});
