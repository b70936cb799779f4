import { z } from 'zod';
import { nameOf, quantity } from '../../../shared/schema/quantity.ts';
import { definePart } from '../part.ts';

/** Typical efficiency of a gearbox of two spur stages. Common practice, no source. */
const typicalEfficiency = 0.9;

/** A gearbox with gears to choose from; one of them is engaged. */
export const gearbox = definePart({
  kind: 'gearbox',
  title: 'Gearbox',
  sort: 'gear',
  source: 'power balance of a gear pair; typical efficiency: common practice, no source',
  fields: z
    .strictObject({
      gears: z
        .array(
          z.strictObject({
            name: nameOf('Name of the gear: "low", "2".'),
            ratio: quantity('ratio', 'Speed in over speed out.', { above: 0, most: 1e5 }),
            efficiency: quantity('ratio', 'Share of the power that passes to the wheels.', {
              above: 0,
              most: 1,
            }).optional(),
          }),
        )
        .min(1)
        .max(40)
        .meta({ description: 'Its gears.' }),
      gear: nameOf('Gear that is engaged; the first one when left out.').optional(),
      sense: z
        .enum(['same', 'opposite'])
        .default('same')
        .meta({ description: 'Whether output and input turn the same way.' }),
    })
    .superRefine(({ gears, gear }, context) => {
      if (gear !== undefined && !gears.some((g) => g.name === gear))
        context.addIssue({
          code: 'custom',
          message: `no gear is called '${gear}', there are ${gears.map((g) => g.name).join(', ')}`,
          path: ['gear'],
        });
      gears.forEach(({ name }, i) => {
        if (gears.findIndex((g) => g.name === name) < i)
          context.addIssue({
            code: 'custom',
            message: `is '${name}', as another gear is called already`,
            path: ['gears', i, 'name'],
          });
      });
    }),
  law: ({ gears, gear, sense }) => {
    const engaged = gears.find((g) => g.name === gear) ?? gears[0];
    const efficiency = engaged?.efficiency ?? typicalEfficiency;
    return {
      ratio: engaged?.ratio ?? 1,
      driving: efficiency,
      backDriving: efficiency,
      sense: sense === 'same' ? 1 : -1,
      turnsCorner: false,
      assumed: engaged?.efficiency === undefined ? ['efficiency typical of a gearbox'] : [],
    };
  },
  sample: { gears: [{ name: 'low', ratio: 6 }] },
});
