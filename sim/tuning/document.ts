import { z } from 'zod';
import { nameOf, quantity } from '../../shared/schema/quantity.ts';
import { scenarioDocument } from '../scenario/schema.ts';
import { methodField } from '../searching/registry.ts';
import { stockLists } from '../stock/registry.ts';

/** Name and newest version of the format of studies. */
export const studyFormat = 'axlewright-study';
export const studyVersion = 1;

/** Limits of a study: most numbers that vary, values of one list, designs, and stations of a crossing. */
export const studyLimits = {
  numbers: 30,
  values: 1000,
  designs: 1_000_000,
  stations: 10_000,
  confirmed: 50,
} as const;

const place = z.string().min(1).max(300);
const end = (says: string) =>
  z.union([z.number(), z.string().min(1).max(60)]).meta({ description: says, unit: 'of the number' });

/** One number that varies: what it is, and the values that it may take. Which fields go together is checked in bind.ts. */
const number = z
  .strictObject({
    name: nameOf('What to call it in tables; made from its place when left out.').optional(),
    of: z
      .union([place, z.array(place).min(1).max(50)])
      .optional()
      .meta({
        description:
          'Its place in the scenario, such as vehicle.members[rear-arm].pivot.z; several places all take the same value.',
      }),
    knob: nameOf(
      "Something that turns several figures together, by the name that 'map' and 'matters' give it: 'middle-arm and rear-arm: pivot z', 'middle-arm: length'.",
    ).optional(),
    from: end('Least value: a number in SI, or text with a unit.').optional(),
    to: end('Greatest value.').optional(),
    step: end(
      'Distance between two values; any value in between when step, steps and pitch are left out.',
    ).optional(),
    steps: z
      .int()
      .min(2)
      .max(studyLimits.values)
      .optional()
      .meta({ description: 'Number of values from one end to the other, both included.', unit: '1' }),
    pitch: end(
      'Pitch of a grid of holes or studs: only multiples of it count from the drawing origin are taken.',
    ).optional(),
    values: z
      .array(z.unknown())
      .max(studyLimits.values)
      .optional()
      .meta({ description: 'A list of values as they would stand in the scenario.' }),
    stock: z.enum(stockLists).optional().meta({
      description:
        "List of the stock from which the element, part or wheel at 'of' is chosen; several places all get the same.",
    }),
  })
  .meta({ description: 'A number that varies: a range, steps, a list, a pitch, or parts from stock.' });

const ground = z
  .strictObject({
    name: nameOf('What to call it.').optional(),
    weight: quantity('ratio', 'How much it counts in the mean of a measure over all grounds.', {
      least: 0,
      most: 1e6,
    }).default(1),
    ground: scenarioDocument.shape.ground.optional(),
    scenario: z
      .string()
      .min(1)
      .max(300)
      .optional()
      .meta({ description: 'Another scenario file, for its ground and where its run begins and ends.' }),
    speed: quantity('speed', "Target speed on this ground, instead of the scenario's own.", {
      least: -100,
      most: 100,
    }).optional(),
  })
  .meta({
    description:
      "A ground to cross: a list of pieces, or another scenario's; the scenario's own without either.",
  });

const goal = z
  .strictObject({
    measure: nameOf(
      "A measure, such as leastLoadShare or wheelLeastLoad[rear]; criteria[0] for the value of a criterion; 'mass' for the vehicle's mass.",
    ),
    want: z.enum(['more', 'less']).optional().meta({
      description: 'Whether more or less of it is wanted; what is usual for the measure when left out.',
    }),
    over: z
      .enum(['mean', 'worst'])
      .default('mean')
      .meta({ description: 'Over several grounds: the mean by their weights, or the worst of them.' }),
  })
  .meta({ description: 'A measure of which more or less is wanted.' });

const sure = z
  .strictObject({
    wanted: quantity('ratio', 'Probability that all criteria hold which the design to take must have.', {
      least: 0,
      most: 1,
    }).default(0.95),
    width: quantity(
      'ratio',
      'Vehicles are drawn until the interval (95 %) of each probability is this narrow.',
      {
        above: 0,
        most: 1,
      },
    ).default(0.05),
    most: z
      .int()
      .min(16)
      .max(100_000)
      .default(1024)
      .meta({ description: 'Most vehicles drawn per design.', unit: '1' }),
    designs: z.int().min(1).max(20).default(3).meta({
      description: 'How many of the best designs are drawn until one has the probability wanted.',
      unit: '1',
    }),
    rows: z.int().min(0).max(10_000).default(64).meta({
      description:
        'Rows of the plan by which it is found which spread matters most; each takes as many crossings as there are spreads, and two. 0: not looked for.',
      unit: '1',
    }),
    spreads: z
      .array(
        z.strictObject({
          of: place.meta({ description: 'A figure of the scenario.' }),
          spread: z.string().min(1).max(200).meta({
            description:
              'The figure with its spread: "2.2 kg ± 5 %", "2.1 .. 2.4 kg", "2.18; 2.21; 2.25 kg".',
          }),
        }),
      )
      .max(200)
      .default([])
      .meta({
        description:
          "Spreads besides those in the scenario and the stock list. A design's own value stands for the middle.",
      }),
    grip: quantity('ratio', 'Spread of the grip of all tyres together: what would stand behind ±.', {
      least: 0,
      most: 1,
    }).default(0),
    friction: quantity('ratio', 'Spread of all dry friction together.', { least: 0, most: 1 }).default(0),
  })
  .meta({
    description: 'How sure the answer is: vehicles drawn by chance from the spreads of their figures.',
  });

/** The schema of a study document. Values of numbers are read later, when the scenario says what they measure. */
export const studyDocument = z
  .strictObject({
    $schema: z.string().optional().meta({ description: 'Address of the JSON Schema, for editors.' }),
    format: z.literal(studyFormat).meta({ description: 'Name of the format.' }),
    version: z.literal(studyVersion).meta({ description: 'Version of the format.' }),
    title: z.string().min(1).max(200).meta({ description: 'What this study asks, in one line.' }),
    notes: z.string().max(20_000).optional().meta({ description: 'Anything worth knowing about it.' }),
    scenario: z.string().min(1).max(300).meta({
      description: 'The scenario: a file beside the study, or the name of one that comes with the program.',
    }),
    stock: z
      .string()
      .min(1)
      .max(300)
      .optional()
      .meta({ description: 'The stock list: a file beside the study, JSON or CSV.' }),
    vary: z.array(number).min(1).max(studyLimits.numbers).meta({ description: 'The numbers that vary.' }),
    grounds: z
      .array(ground)
      .min(1)
      .max(50)
      .optional()
      .meta({ description: "Grounds to cross; the scenario's own when left out." }),
    goals: z
      .array(goal)
      .min(1)
      .max(4)
      .default([{ measure: 'leastLoadShare', over: 'mean' }])
      .meta({
        description:
          'What is wanted more or less. Of several the first decides, unless the method looks for their front.',
      }),
    criteria: scenarioDocument.shape.criteria
      .unwrap()
      .optional()
      .meta({ description: "What must hold, on every ground; the scenario's own criteria when left out." }),
    run: z
      .strictObject({
        by: z.enum(['crawl', 'drive']).optional().meta({
          description: "'crawl': in balance, fast. 'drive': with inertia; usual where a ground is rough.",
        }),
        stations: z
          .int()
          .min(2)
          .max(studyLimits.stations)
          .default(200)
          .meta({ description: 'Stations of each crossing by crawl.', unit: '1' }),
        confirm: z
          .int()
          .min(0)
          .max(studyLimits.confirmed)
          .default(3)
          .meta({ description: 'How many of the best designs of a crawl are driven too.', unit: '1' }),
      })
      .prefault({})
      .meta({ description: 'How a design is tried.' }),
    method: methodField,
    seed: z
      .int()
      .min(0)
      .max(0xffff_ffff)
      .default(1)
      .meta({ description: 'Beginning of all chance: the same seed gives the same study.', unit: '1' }),
    sure: sure.optional(),
  })
  .meta({ title: 'Axlewright study' });

/** A study as it is read: standard values filled in; the ends of ranges still as they were written. */
export type StudyDocument = z.output<typeof studyDocument>;
