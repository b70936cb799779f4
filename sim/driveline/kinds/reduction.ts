import { z } from 'zod';
import { quantity } from '../../../shared/schema/quantity.ts';
import { definePart } from '../part.ts';

const teeth = z
  .int()
  .min(1)
  .max(10_000)
  .meta({ description: 'Number of teeth (or starts of a worm).', unit: '1' });

/**
 * Typical efficiencies of one mesh when nothing better is known, with those of driving it back.
 * Common practice, no source.
 */
export const typical = {
  spur: { driving: 0.95, backDriving: 0.95 },
  bevel: { driving: 0.93, backDriving: 0.93 },
  planetary: { driving: 0.9, backDriving: 0.9 },
  worm: { driving: 0.5, backDriving: 0 },
  belt: { driving: 0.95, backDriving: 0.95 },
  chain: { driving: 0.96, backDriving: 0.96 },
} as const;

/** A pair of gears, a planetary stage, a worm, a belt or a chain. */
export const reduction = definePart({
  kind: 'reduction',
  title: 'Reduction',
  sort: 'gear',
  source: 'power balance of a gear pair; typical efficiencies: common practice, no source',
  fields: z
    .strictObject({
      mesh: z
        .enum(['spur', 'bevel', 'worm', 'planetary', 'belt', 'chain'])
        .default('spur')
        .meta({ description: 'What meshes.' }),
      teeth: z
        .tuple([teeth, teeth])
        .optional()
        .meta({ description: 'Teeth of the driving and the driven wheel.' }),
      ratio: quantity('ratio', 'Speed in over speed out, where teeth are not given.', {
        above: 0,
        most: 1e5,
      }).optional(),
      efficiency: quantity('ratio', 'Share of the power that passes from the source to the wheels.', {
        above: 0,
        most: 1,
      }).optional(),
      backEfficiency: quantity('ratio', 'Share of the power that passes back; 0 when it locks itself.', {
        least: 0,
        most: 1,
      }).optional(),
      sense: z
        .enum(['same', 'opposite'])
        .default('same')
        .meta({ description: 'Whether output and input turn the same way, where they are parallel.' }),
    })
    .superRefine((p, context) => {
      if ((p.teeth === undefined) === (p.ratio === undefined))
        context.addIssue({
          code: 'custom',
          message: 'needs its teeth or its ratio, one of them',
          path: ['ratio'],
        });
    }),
  law: (p) => {
    const usual = typical[p.mesh];
    return {
      ratio: p.teeth ? p.teeth[1] / p.teeth[0] : (p.ratio ?? 1),
      driving: p.efficiency ?? usual.driving,
      backDriving: p.backEfficiency ?? (p.efficiency === undefined ? usual.backDriving : p.efficiency),
      sense: p.sense === 'same' ? 1 : -1,
      turnsCorner: p.mesh === 'bevel' || p.mesh === 'worm',
      assumed: p.efficiency === undefined ? [`efficiency typical of a ${p.mesh} stage`] : [],
    };
  },
  sample: { mesh: 'spur', teeth: [12, 36] },
});
