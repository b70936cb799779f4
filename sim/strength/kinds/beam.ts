import { z } from 'zod';
import { nameOf, quantity } from '../../../shared/schema/quantity.ts';
import { defineStrength } from '../kind.ts';
import { atThickness, materialField, materialOf } from '../material.ts';
import { beamSection, sectionFigures, withHole } from '../section.ts';

/** An arm, a beam or the upright of an axle on rods: bent in the side view, with axial force and shear. */
export const beam = defineStrength({
  kind: 'beam',
  title: 'Arm or beam',
  sort: 'arm',
  source: 'M/W + N/A, greatest shear over the section: Shigley, bending and transverse shear',
  target: 'arm',
  safety: 'parts',
  fields: z.strictObject({
    member: nameOf('Arm, beam or axle on rods.'),
    material: materialField,
    section: beamSection,
    hole: quantity('length', 'Diameter of a pin hole through it at mid-height, at the weakest place.', {
      above: 0,
      most: 10,
    }).optional(),
  }),
  judge: ({ section, hole, ...p }, { count, safety }) => {
    const whole = sectionFigures(section);
    const material = atThickness(materialOf(p.material), whole.thickness);
    if (hole !== undefined && !(hole < whole.clear))
      return {
        checks: [],
        missing: {
          field: 'hole',
          message: 'is as large as the section is high inside',
          hint: 'make the hole smaller or the section higher',
        },
      };
    const { area, inertia, outer, shear } = hole === undefined ? whole : withHole(whole, hole);
    return {
      checks: [
        {
          quantity: 'bending stress',
          unit: 'Pa',
          per: { bending: outer / (inertia * count), axial: 1 / (area * count) },
          limit: material.yield / safety,
          safety,
          material,
        },
        {
          quantity: 'shear stress',
          unit: 'Pa',
          per: { shear: shear / (area * count) },
          limit: material.shearYield / safety,
          safety,
          material,
        },
      ],
    };
  },
  sample: {
    member: 'rear-bogie',
    material: 'mild-steel',
    section: { shape: 'rectangle', width: '4 mm', height: '12 mm' },
  },
});
