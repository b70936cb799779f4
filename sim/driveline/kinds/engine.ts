import { z } from 'zod';
import { quantity } from '../../../shared/schema/quantity.ts';
import { definePart, straightThrough } from '../part.ts';

/** A combustion engine with its torque over speed at full throttle; below its lowest speed a clutch slips. */
export const engine = definePart({
  kind: 'engine',
  title: 'Engine',
  sort: 'motor',
  source: 'full-load torque curve as given by the maker',
  fields: z
    .strictObject({
      curve: z
        .array(
          z.strictObject({
            speed: quantity('spin', 'Speed of the engine.', { least: 0, most: 1e5 }),
            torque: quantity('torque', 'Torque at full throttle.', { least: 0, most: 1e7 }),
          }),
        )
        .min(2)
        .max(60)
        .meta({ description: 'Full-load torque over rising speed; beyond the last speed it gives none.' }),
      axis: z
        .enum(['lengthwise', 'across'])
        .default('lengthwise')
        .meta({ description: 'How its shaft lies in the vehicle.' }),
      inertia: quantity('inertia', 'Inertia of crankshaft and flywheel.', { least: 0, most: 1e4 }).default(0),
    })
    .superRefine(({ curve }, context) => {
      curve.forEach(({ speed }, i) => {
        const before = curve[i - 1];
        if (before !== undefined && speed <= before.speed)
          context.addIssue({
            code: 'custom',
            message: 'must be above the speed before it',
            path: ['curve', i, 'speed'],
          });
      });
      if (curve.every(({ torque }) => torque === 0))
        context.addIssue({ code: 'custom', message: 'gives no torque at any speed', path: ['curve'] });
    }),
  law: ({ curve, inertia }) => ({
    ...straightThrough,
    motor: {
      stallTorque: Math.max(...curve.map(({ torque }) => torque)),
      noLoadSpeed: curve.at(-1)?.speed ?? 0,
      inertia,
      curve,
    },
  }),
  sample: {
    curve: [
      { speed: '800 rpm', torque: '600 N m' },
      { speed: '2400 rpm', torque: '400 N m' },
    ],
  },
});
