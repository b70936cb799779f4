import { z } from 'zod';
import { nameOf, quantity } from '../../../shared/schema/quantity.ts';
import { definePart, straightThrough } from '../part.ts';

const current = (says: string) => quantity('current', says, { least: 0, most: 1e5 }).optional();

const heatOf = (p: { heatCapacity: number; resistance?: number | undefined; rise: number }) => ({
  heatCapacity: p.heatCapacity,
  rise: p.rise,
  ...(p.resistance === undefined ? {} : { resistance: p.resistance }),
});

/** A direct-current motor with its straight line of torque over speed. */
export const motor = definePart({
  kind: 'motor',
  title: 'Electric motor',
  sort: 'motor',
  source: 'linear direct-current motor, texts on electric drives',
  fields: z
    .strictObject({
      stallTorque: quantity('torque', 'Torque of ONE motor at standstill.', { above: 0, most: 1e7 }),
      noLoadSpeed: quantity('spin', 'Speed without load.', { above: 0, most: 1e5 }),
      stallCurrent: current('Current of ONE motor at standstill.'),
      noLoadCurrent: current('Current of ONE motor without load.'),
      voltage: quantity('voltage', 'Voltage of these figures; that of the battery when left out.', {
        above: 0,
        most: 1e5,
      }).optional(),
      currentLimit: current('Current that ONE motor or its controller allows.'),
      controller: nameOf('Controller that it shares with other motors, one of `controllers`.').optional(),
      continuousTorque: quantity('torque', 'Torque that ONE motor can hold without getting too hot.', {
        above: 0,
        most: 1e7,
      }).optional(),
      thermal: z
        .strictObject({
          heatCapacity: quantity('heatCapacity', 'Heat that warms the winding by 1 K.', {
            above: 0,
            most: 1e9,
          }),
          resistance: quantity('thermalResistance', 'From the winding to the air.', {
            above: 0,
            most: 1e6,
          }).optional(),
          rise: quantity('temperature', 'How much warmer than the air the winding may get.', {
            above: 0,
            most: 1000,
          }).default(80),
        })
        .optional()
        .meta({ description: 'How fast ONE motor gets hot. A hot motor burns fingers and melts plastics.' }),
      axis: z
        .enum(['lengthwise', 'across'])
        .default('lengthwise')
        .meta({ description: 'How its shaft lies in the vehicle.' }),
      inertia: quantity('inertia', 'Inertia of its rotor.', { least: 0, most: 1e4 }).default(0),
    })
    .superRefine(({ stallCurrent, noLoadCurrent }, context) => {
      if (stallCurrent !== undefined && noLoadCurrent !== undefined && noLoadCurrent >= stallCurrent)
        context.addIssue({
          code: 'custom',
          message: 'must be below the current at standstill',
          path: ['noLoadCurrent'],
        });
    }),
  law: ({ axis: _axis, ...p }) => ({
    ...straightThrough,
    motor: {
      stallTorque: p.stallTorque,
      noLoadSpeed: p.noLoadSpeed,
      inertia: p.inertia,
      ...(p.stallCurrent === undefined ? {} : { stallCurrent: p.stallCurrent }),
      ...(p.noLoadCurrent === undefined ? {} : { noLoadCurrent: p.noLoadCurrent }),
      ...(p.voltage === undefined ? {} : { voltage: p.voltage }),
      ...(p.currentLimit === undefined ? {} : { currentLimit: p.currentLimit }),
      ...(p.continuousTorque === undefined ? {} : { continuousTorque: p.continuousTorque }),
      ...(p.thermal === undefined ? {} : { thermal: heatOf(p.thermal) }),
      ...(p.controller === undefined ? {} : { controller: p.controller }),
    },
  }),
  sample: { stallTorque: '120 N mm', noLoadSpeed: '900 rpm' },
});
