import { z } from 'zod';
import { nameOf, point, quantity } from '../../shared/schema/quantity.ts';
import { motor } from '../driveline/kinds/motor.ts';
import { ratingField } from '../driveline/rating.ts';

const { stallTorque, noLoadSpeed, stallCurrent, noLoadCurrent, voltage, currentLimit, continuousTorque } =
  motor.fields.shape;

const rope = z
  .strictObject({
    length: quantity('length', 'Its length.', { above: 0, most: 1e4 }),
    diameter: quantity('length', 'Its diameter.', { least: 1e-4, most: 0.2 }),
    strength: quantity('force', 'Load at which ONE line of it breaks.', { above: 0, most: 1e8 }).optional(),
    safety: quantity('ratio', 'How many times the pull it is to bear.', { least: 1, most: 20 }).default(2),
    kind: z.enum(['wire', 'synthetic']).default('wire').meta({ description: 'What it is made of.' }),
    stretch: quantity('ratio', 'How much longer it is when it breaks; typical of its kind when left out.', {
      above: 0,
      most: 1,
    }).optional(),
  })
  .meta({ description: 'The rope.' });

const drum = z
  .strictObject({
    core: quantity('length', 'Diameter of the bare drum.', { above: 0, most: 5 }),
    width: quantity('length', 'Width between its flanges.', { above: 0, most: 10 }),
    flange: quantity('length', 'Diameter of its flanges.', { above: 0, most: 10 }).optional(),
  })
  .meta({ description: 'The drum.' });

const reduction = z
  .strictObject({
    ratio: quantity('ratio', 'Speed in over speed of the drum.', { above: 0, most: 1e6 }),
    efficiency: quantity('ratio', 'Share of the power that reaches the drum.', { above: 0, most: 1 }).default(
      0.7,
    ),
    locks: z.boolean().default(false).meta({ description: 'Whether it holds by itself, as a worm may.' }),
    rating: ratingField.optional(),
  })
  .meta({ description: 'Reduction of its own, before the drum. Its rating counts at the drum.' });

/** What the winch is asked to do: kept in the document, so that a ledger has it; the command line may say otherwise. */
const task = z
  .strictObject({
    slope: quantity('angle', 'Even slope on which it pulls its own vehicle, nose-up positive.', {
      least: -1.4,
      most: 1.4,
    }).default(0),
    hole: quantity('length', 'Depth of a hole with a steep edge that one axle line stands in.', {
      least: 0,
      most: 10,
    }).default(0),
    rolling: quantity('ratio', "Rolling resistance instead of the tyres' own: 0.15 for soft ground.", {
      least: 0,
      most: 1,
    }).optional(),
    lines: z
      .int()
      .min(1)
      .max(8)
      .default(1)
      .meta({ description: 'Lines of rope that pull: 2 with one snatch block.', unit: '1' }),
    sheave: quantity('ratio', 'Efficiency of a snatch block.', { above: 0, most: 1 }).default(0.95),
    towards: z.enum(['front', 'rear']).default('front').meta({ description: 'Where the anchor is.' }),
    anchor: z
      .strictObject({
        distance: quantity('length', 'Distance of the anchor from the winch, along the ground.', {
          above: 0,
          most: 1e4,
        }).optional(),
        height: quantity('length', 'Height of the anchor over the ground; as the winch when left out.', {
          least: -100,
          most: 1000,
        }).optional(),
        strength: quantity('force', 'Force that the anchor bears.', { above: 0, most: 1e8 }).optional(),
      })
      .default({})
      .meta({ description: 'What the rope is tied to.' }),
  })
  .meta({ description: 'What the winch is to do.' });

/** A winch as a document has it. */
export const winchField = z
  .strictObject({
    name: nameOf('Name of the winch.'),
    on: nameOf("Member that holds it, or 'chassis'.").default('chassis'),
    at: point('Where its rope leaves the vehicle, in the drawing.'),
    rope,
    drum,
    reduction: reduction.optional(),
    motor: z
      .strictObject({
        stallTorque,
        noLoadSpeed,
        stallCurrent,
        noLoadCurrent,
        voltage,
        currentLimit,
        continuousTorque,
      })
      .optional()
      .meta({ description: 'Motor of its own.' }),
    from: nameOf('Part of the drive line that turns it instead (power take-off).').optional(),
    brake: quantity('torque', 'Torque that its brake holds at the drum.', { above: 0, most: 1e8 }).optional(),
    task: task.optional(),
  })
  .meta({ description: 'A winch. Its mass belongs to the mass items.' });

/** A winch of a read scenario, SI. */
export type WinchEntry = z.output<typeof winchField>;
/** What it is asked to do, SI. */
export type WinchTask = z.output<typeof task>;

/** The task when nothing is said: on the level, one line, anchor ahead at the height of the winch. */
export const plainTask: WinchTask = {
  slope: 0,
  hole: 0,
  lines: 1,
  sheave: 0.95,
  towards: 'front',
  anchor: {},
};
