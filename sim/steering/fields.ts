import { z } from 'zod';
import { nameOf, quantity } from '../../shared/schema/quantity.ts';

const line = z
  .strictObject({
    wheel: nameOf('Steered axle line.'),
    most: quantity('angle', 'Greatest angle to which its wheels are steered.', { above: 0, most: 6.3 }),
    offset: quantity(
      'length',
      'King-pin offset at the ground (scrub radius): from where the king-pin axis meets the ground out to the middle of the tyre. Found from the hub when left out.',
      { least: -5, most: 5 },
    ).optional(),
    hubOffset: quantity(
      'length',
      'King-pin offset at the height of the hub, out to the middle of the tyre.',
      {
        least: -5,
        most: 5,
      },
    ).default(0),
    inclination: quantity('angle', 'King-pin inclination: its top leans inward.', {
      least: -1,
      most: 1,
    }).default(0),
    caster: quantity('angle', 'Caster: its top leans rearward.', { least: -1, most: 1 }).default(0),
    width: quantity('length', 'Width of the contact; that of the tyre when left out.', {
      above: 0,
      most: 10,
    }).optional(),
    length: quantity('length', 'Length of the contact; found from load and stiffness when left out.', {
      above: 0,
      most: 10,
    }).optional(),
    friction: quantity('ratio', 'Friction of the standing tyre; its grip when left out.', {
      above: 0,
      most: 3,
    }).optional(),
  })
  .meta({ description: 'One steered axle line.' });

const arm = quantity('length', 'Arm of the king-pin, straight ahead across the link or rack.', {
  above: 0,
  most: 5,
});

const linkage = z
  .discriminatedUnion('kind', [
    z
      .strictObject({
        kind: z.literal('lever').meta({ description: 'Lever and link.' }),
        lever: quantity(
          'length',
          'Lever on the servo or drop arm of the box, straight ahead across the link.',
          {
            above: 0,
            most: 5,
          },
        ),
        arm,
        link: quantity('length', 'Length of the link; taken as long when left out.', {
          above: 0,
          most: 20,
        }).optional(),
      })
      .meta({ title: 'Lever and link' }),
    z
      .strictObject({
        kind: z.literal('rack').meta({ description: 'Rack and pinion.' }),
        pinion: quantity('length', 'Pitch radius of the pinion.', { above: 0, most: 1 }),
        arm,
      })
      .meta({ title: 'Rack and pinion' }),
    z
      .strictObject({ kind: z.literal('direct').meta({ description: 'Turns the king-pin itself.' }) })
      .meta({ title: 'Straight on the king-pin' }),
  ])
  .default({ kind: 'direct' })
  .meta({ description: 'How it turns the king-pins of the first line; the others follow in step.' });

/** A steering as a document has it: what turns which axle lines. */
export const steeringField = z
  .strictObject({
    name: nameOf('Name of the steering.'),
    lines: z.array(line).min(1).max(16).meta({ description: 'Axle lines that it steers.' }),
    torque: quantity('torque', 'Torque of ONE servo or motor at standstill.', {
      above: 0,
      most: 1e7,
    }).optional(),
    count: z
      .int()
      .min(1)
      .max(16)
      .default(1)
      .meta({ description: 'Equal servos or motors that turn it together.', unit: '1' }),
    ratio: quantity('ratio', 'Reduction after the servo or motor: a worm, a steering box.', {
      above: 0,
      most: 1e5,
    }).default(1),
    efficiency: quantity('ratio', 'Share of the power that reaches the king-pins.', {
      above: 0,
      most: 1,
    }).default(0.85),
    linkage,
  })
  .meta({ description: 'A steering: its lines, what turns them, and through what.' });

/** A steering of a read scenario, SI. */
export type SteeringEntry = z.output<typeof steeringField>;
