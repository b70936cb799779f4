import { z } from 'zod';
import { nameOf } from '../../../shared/schema/quantity.ts';
import { whichRod } from '../fields.ts';
import { criticalCompression } from '../formulas.ts';
import { defineStrength } from '../kind.ts';
import { atThickness, materialField, materialOf } from '../material.ts';
import { beamSection, sectionFigures } from '../section.ts';

/** A rod that is pulled and pushed along its line. */
export const rod = defineStrength({
  kind: 'rod',
  title: 'Rod',
  sort: 'rod',
  source: 'tension F/A; compression after Euler, stocky rods after J. B. Johnson: Shigley, columns',
  target: 'rod',
  safety: 'parts',
  fields: z.strictObject({
    member: nameOf('The rod; or an axle on rods.'),
    rod: whichRod,
    material: materialField,
    section: beamSection,
    ends: z.enum(['pinned', 'one fixed', 'fixed']).default('pinned').meta({
      description: 'How its ends are held against turning, in the plane in which it is weaker.',
    }),
  }),
  judge: ({ section, ends, ...p }, { count, safety, length }) => {
    const { area, inertia, across, thickness } = sectionFigures(section);
    const material = atThickness(materialOf(p.material), thickness);
    const critical = criticalCompression(length, area, Math.min(inertia, across), material, ends);
    return {
      checks: [
        {
          quantity: 'tensile stress',
          unit: 'Pa',
          per: { pull: 1 / (area * count) },
          limit: material.yield / safety,
          safety,
          material,
        },
        {
          quantity: 'compression',
          unit: 'N',
          per: { push: 1 / count },
          limit: critical / safety,
          safety,
          material,
        },
      ],
    };
  },
  sample: { member: 'torque-rod', material: 'mild-steel', section: { shape: 'round', diameter: '3 mm' } },
});
