import { z } from 'zod';
import { nameOf, point, quantity } from './quantity.ts';

/** Name and newest version of the document format. */
export const formatName = 'axlewright-scenario';
export const formatVersion = 1;

/** Limits of a document; past them reading stops with a clear error. */
export const limits = {
  bytes: 5_000_000,
  depth: 40,
  bodies: 64,
  groundPoints: 200_000,
  simulatedTime: 3600,
  /** Figures in a recording: half a gigabyte. */
  recordedFigures: 64_000_000,
  axles: 16,
  driveParts: 200,
  /** Letters of a picture to draw over, as the document carries it: about 1.5 MB of picture. */
  pictureText: 2_000_000,
  winches: 8,
  steering: 8,
} as const;

/** The kinds that the engine has registered: one schema per slot, each a discriminated union over `kind`. */
export interface Kinds<
  M extends z.ZodType,
  E extends z.ZodType,
  G extends z.ZodType,
  C extends z.ZodType,
  P extends z.ZodType,
  W extends z.ZodType,
  T extends z.ZodType,
  S extends z.ZodType,
> {
  readonly member: M;
  readonly element: E;
  readonly ground: G;
  readonly criterion: C;
  /** Parts of the drive line. */
  readonly part: P;
  readonly winch: W;
  readonly steering: T;
  /** What may give way, with its figures. */
  readonly strength: S;
}

/** Where an element acts: on the joint of a member, or between two points. */
export const actsOn = z
  .union([
    z.strictObject({
      member: nameOf(
        'Member whose own travel the element acts along: the turn of an arm or beam, the rise of a guided axle.',
      ),
    }),
    z.strictObject({
      from: z
        .strictObject({ on: nameOf("Member, or 'chassis'."), ...point('').shape })
        .meta({ description: 'One end, in the drawing.' }),
      to: z
        .strictObject({ on: nameOf("Member, or 'chassis'."), ...point('').shape })
        .meta({ description: 'The other end, in the drawing.' }),
    }),
  ])
  .meta({ description: 'Where the element acts: {"member": name}, or {"from": point, "to": point}.' });

const massItem = z
  .strictObject({
    name: nameOf('What it is.'),
    on: nameOf("Member that carries it, or 'chassis'.").default('chassis'),
    mass: quantity('mass', 'Mass of one.', { above: 0, most: 1e7 }),
    count: z
      .int()
      .min(1)
      .max(1000)
      .default(1)
      .meta({ description: 'How many of them, all at this place in side view.', unit: '1' }),
    at: point('Its centre of mass in the drawing.'),
    inertia: quantity('inertia', 'Own pitch inertia of one about its centre of mass; 0 when left out.', {
      least: 0,
      most: 1e9,
    }).optional(),
  })
  .meta({
    description:
      'A mass item. Mass, centre of gravity and pitch inertia of the vehicle are computed from all of them.',
  });

const tyre = z
  .strictObject({
    stiffnessPerWheel: quantity(
      'stiffness',
      'Radial stiffness of ONE wheel: load over deflection, at the load given by `loadPerWheel`.',
      { above: 0, most: 1e9 },
    ),
    loadPerWheel: quantity(
      'force',
      'Load on ONE wheel at which the stiffness was measured; the mean standing load per wheel when left out.',
      { above: 0, most: 1e7 },
    ).optional(),
    damping: quantity(
      'perLengthSpeed',
      'Damping: share by which the load grows per metre per second of closing speed.',
      { least: 0, most: 100 },
    ).default(0.5),
    grip: quantity('ratio', 'Coefficient of friction between tyre and ground.', {
      least: 0,
      most: 3,
    }).default(0.8),
    rolling: quantity('ratio', 'Rolling resistance as a share of the load.', { least: 0, most: 0.5 }).default(
      0.015,
    ),
  })
  .meta({ description: 'Tyre figures of one wheel.' });

const gearTrain = z
  .strictObject({
    train: nameOf('Beam or arm that holds a gear train between its pivot and the wheel.'),
    ratio: quantity('ratio', 'Torque at the wheel over torque of the shaft at the pivot.', {
      above: 0,
      most: 1000,
    }),
    sense: z
      .enum(['same', 'opposite'])
      .default('same')
      .meta({ description: 'Whether the shaft at the pivot turns the same way as the wheel.' }),
    motorOn: nameOf("Body that holds the motor of the shaft, or 'chassis'.").default('chassis'),
  })
  .meta({ description: 'The wheel is driven through a gear train along a beam or arm.' });

const wheel = z
  .strictObject({
    name: nameOf('Name of the axle line, shown in the bands and tables.'),
    on: nameOf("Member that carries the hub, or 'chassis'.").default('chassis'),
    at: point('The hub in the drawing.'),
    radius: quantity('length', 'Unloaded radius.', { above: 0, most: 10 }),
    width: quantity('length', 'Width of ONE wheel.', { above: 0, most: 10 }).optional(),
    count: z
      .union([z.literal(1), z.literal(2), z.literal(4)])
      .default(2)
      .meta({ description: 'Wheels on this axle line: 2, 4 with twins, 1 for a single wheel.', unit: '1' }),
    massPerWheel: quantity('mass', 'Mass of ONE wheel with its hub.', { above: 0, most: 1e5 }),
    inertiaPerWheel: quantity(
      'inertia',
      'Spin inertia of ONE wheel; that of a solid disc, ½·m·r², when left out.',
      { above: 0, most: 1e6 },
    ).optional(),
    tyre,
    reaction: z
      .union([
        nameOf(
          "Body that takes the reaction of the drive torque: the member that holds the motor or final drive, or 'chassis'; the wheel's own carrier when left out.",
        ),
        gearTrain,
      ])
      .optional()
      .meta({
        description:
          'Where the reaction of the drive torque goes: a body by name, or a gear train along a beam.',
      }),
  })
  .meta({ description: 'One axle line: all wheels of it, seen from the side as one.' });

/** Where the drive torque comes from and goes to, as the document says it. */
export type Sharing = 'locked' | 'open' | 'motors' | SharingTree;
/** A lock or an open split over axle lines and further splits. */
export type SharingTree =
  | { readonly locked: readonly SharingBranch[] }
  | { readonly open: readonly SharingBranch[] }
  | { readonly motors: readonly SharingBranch[] };
type SharingBranch = string | SharingTree;

const branch: z.ZodType<SharingBranch> = z.lazy(() =>
  z.union([nameOf('Name of an axle line.'), sharingTree]),
);
const branches = z.array(branch).min(1).max(limits.axles);
const sharingTree: z.ZodType<SharingTree> = z.union([
  z.strictObject({
    locked: branches.meta({ description: 'Branches that turn alike: torque follows load.' }),
  }),
  z.strictObject({
    open: branches.meta({
      description:
        'Branches of an open differential: equal torque, and when one spins the others get no more.',
    }),
  }),
  z.strictObject({
    motors: branches.meta({
      description: 'Branches with equal motors of their own: equal torque up to the grip of each.',
    }),
  }),
]);

const sharing = z.union([z.enum(['locked', 'open', 'motors']), sharingTree]).meta({
  description:
    'How a crawl shares the thrust: \'locked\' (all driven axle lines turn alike, torque follows load), \'open\' (open differentials throughout: equal torque, and when one line spins the others get no more), \'motors\' (an equal motor for each line: equal torque up to the grip of each), or a tree of these: {"open": ["front", {"locked": ["middle", "rear"]}]}.',
});

const pull = z
  .strictObject({
    name: nameOf('What pulls.'),
    on: nameOf("Member that is pulled, or 'chassis'.").default('chassis'),
    at: point('Where it is tied, in the drawing.'),
    force: quantity('force', 'Its force.', { least: 0, most: 1e8 }),
    angle: quantity('angle', 'Its direction against the level: 0 forward, 90 deg up, 180 deg rearward.', {
      least: -Math.PI * 2,
      most: Math.PI * 2,
    }).default(0),
  })
  .meta({ description: 'A constant force from outside: a tow rope, a winch line, a hand.' });

const drive = z
  .strictObject({
    driven: z
      .union([z.literal('all'), z.array(nameOf('Wheel name.'))])
      .default('all')
      .meta({ description: "Driven axle lines by name, or 'all'." }),
    sharing: sharing.default('locked'),
    torquePerWheel: quantity(
      'torque',
      'Greatest drive torque at ONE wheel; where there is a drive line, that decides instead.',
      { least: 0, most: 1e7 },
    ).optional(),
    speed: quantity('speed', 'Target speed, forward; 0 parks with locked wheels.', {
      least: -100,
      most: 100,
    }),
    acceleration: quantity('acceleration', 'How fast the target speed is taken up.', {
      above: 0,
      most: 100,
    }).default(0.5),
  })
  .meta({
    description: 'The drive: each driven axle line is held to the target speed within its torque limit.',
  });

const battery = z
  .strictObject({
    voltage: quantity('voltage', 'Voltage without load.', { above: 0, most: 1e5 }),
    resistance: quantity('resistance', 'Inner resistance with its cables.', { least: 0, most: 1e4 }).default(
      0,
    ),
    capacity: quantity('charge', 'Charge that it holds.', { above: 0, most: 1e9 }).optional(),
    currentLimit: quantity('current', 'Current that it gives at most.', { above: 0, most: 1e6 }).optional(),
    cells: z.int().min(1).max(10_000).optional().meta({ description: 'Cells in series.', unit: '1' }),
  })
  .meta({ description: 'What the motors draw from. Lithium cells burn when shorted or overcharged.' });

const bodywork = z
  .strictObject({
    outlines: z
      .array(
        z.strictObject({
          on: nameOf("Member, or 'chassis'.").default('chassis'),
          closed: z.boolean().default(true).meta({ description: 'Whether the line closes.' }),
          points: z.array(point('')).min(2).max(500).meta({ description: 'Corners in order.' }),
        }),
      )
      .max(100)
      .default([])
      .meta({ description: 'Lines to draw; they carry nothing.' }),
    belly: z.array(point('')).max(200).default([]).meta({
      description: 'Underside of the chassis from rear to front: its clearance over the ground is watched.',
    }),
  })
  .meta({ description: 'What covers: outlines to draw, and the belly line.' });

const run = z
  .strictObject({
    start: quantity(
      'length',
      'Station at which the vehicle stands before it drives; by default the rearmost tyre begins at station 0.',
    ).optional(),
    until: quantity(
      'length',
      'Station at which the run ends; by default the end of the ground less the overhang in front of the reference point.',
    ).optional(),
    time: quantity(
      'time',
      'Longest run; by default three times what the distance takes at the target speed, and 5 s.',
      { above: 0, most: limits.simulatedTime },
    ).optional(),
    pulls: z.array(pull).max(20).default([]).meta({ description: 'Constant forces from outside.' }),
    frames: quantity('frequency', 'Recorded frames per second of model time.', {
      least: 10,
      most: 2000,
    }).default(240),
    substep: quantity('time', 'Substep of the engine; by default chosen from the stiffest part.', {
      least: 1e-6,
      most: 0.01,
    }).optional(),
  })
  .meta({ description: 'How the run begins and ends.' });

const underlay = z
  .strictObject({
    picture: z
      .string()
      .max(limits.pictureText)
      .refine((text) => /^data:image\/(png|jpeg|webp);base64,[A-Za-z0-9+/]+=*$/.test(text), {
        error: 'is no picture: a PNG, JPEG or WebP as a data address was wanted',
      })
      .meta({ description: 'The picture itself, as a data address.' }),
    at: point('Its middle in the drawing.'),
    width: quantity('length', 'How wide the whole picture is in the drawing.', { above: 0, most: 10_000 }),
    angle: quantity('angle', 'How far it is turned, counter-clockwise.', {
      least: -2 * Math.PI,
      most: 2 * Math.PI,
    }).default(0),
    opacity: quantity('ratio', 'How strongly it shows.', { least: 0, most: 1 }).default(0.6),
    locked: z.boolean().default(false).meta({ description: 'Whether it stays where it is.' }),
    inFiles: z
      .boolean()
      .default(false)
      .meta({ description: 'Whether files and links that are written carry it too.' }),
  })
  .meta({ description: 'A picture to draw over; nothing is computed from it.' });

/**
 * Schema of a scenario document over the registered kinds. Its input is what a user writes (units as text allowed),
 * its output is SI with all defaults filled in.
 */
export function scenarioSchema<
  M extends z.ZodType,
  E extends z.ZodType,
  G extends z.ZodType,
  C extends z.ZodType,
  P extends z.ZodType,
  W extends z.ZodType,
  T extends z.ZodType,
  S extends z.ZodType,
>(kinds: Kinds<M, E, G, C, P, W, T, S>) {
  return z
    .strictObject({
      $schema: z.string().optional().meta({ description: 'Address of the JSON Schema, for editors.' }),
      format: z.literal(formatName).meta({ description: 'Name of the format.' }),
      version: z.literal(formatVersion).meta({ description: 'Version of the format.' }),
      title: z.string().min(1).max(200).meta({ description: 'What this scenario is about, in one line.' }),
      notes: z.string().max(20_000).optional().meta({ description: 'Anything worth knowing about it.' }),
      gravity: quantity('acceleration', 'Gravity, downwards.', { above: 0, most: 100 }).default(9.80665),
      vehicle: z
        .strictObject({
          name: nameOf('Name of the vehicle.'),
          scale: quantity('ratio', 'Model scale: full size over model, 16 for 1:16; 1 for full size.', {
            above: 0,
            most: 1000,
          }).default(1),
          reference: point("The reference point on the chassis: the vehicle's station is its x.").default({
            x: 0,
            z: 0,
          }),
          masses: z.array(massItem).min(1).max(500).meta({ description: 'Mass items, wheels left out.' }),
          members: z
            .array(kinds.member)
            .max(200)
            .default([])
            .meta({ description: 'Suspension members, parents and children in any order.' }),
          elements: z
            .array(kinds.element)
            .max(500)
            .default([])
            .meta({ description: 'Springs, bars, dampers, stops, friction.' }),
          wheels: z.array(wheel).min(1).max(limits.axles).meta({ description: 'Axle lines, in any order.' }),
          drive,
          driveline: z
            .strictObject({
              battery: battery.optional(),
              controllers: z
                .array(
                  z.strictObject({
                    name: nameOf('Name of the controller.'),
                    currentLimit: quantity('current', 'Current that it passes to all its motors together.', {
                      above: 0,
                      most: 1e6,
                    }),
                  }),
                )
                .max(100)
                .default([])
                .meta({ description: 'Motor controllers that several motors share equally.' }),
              parts: z
                .array(kinds.part)
                .min(1)
                .max(limits.driveParts)
                .meta({ description: 'Parts from the motors to the wheels, in any order.' }),
            })
            .optional()
            .meta({
              description:
                'What drives the wheels, part by part. It decides driven lines, sharing, torque and reaction.',
            }),
          winches: z.array(kinds.winch).max(limits.winches).optional().meta({ description: 'Winches.' }),
          steering: z
            .array(kinds.steering)
            .max(limits.steering)
            .optional()
            .meta({ description: 'What steers which axle lines.' }),
          strength: z
            .strictObject({
              safety: quantity(
                'ratio',
                'Safety factor wanted against yield; 2 is usual where loads are computed and materials are average.',
                { least: 1, most: 20 },
              ).default(2),
              springSafety: quantity(
                'ratio',
                'The same for springs and torsion bars, which are built to be stressed: 1.2 is usual.',
                { least: 1, most: 20 },
              ).default(1.2),
              parts: z.array(kinds.strength).max(500).default([]).meta({
                description: 'What may give way, in any order; what is not here is unknown, never safe.',
              }),
            })
            .optional()
            .meta({
              description:
                'What pins, rods, arms, bars and springs may carry. No proof of strength for what carries people or loads.',
            }),
          rideHeight: z
            .strictObject({
              setBy: z
                .array(nameOf('Spring or torsion bar that acts on a member.'))
                .min(1)
                .max(100)
                .meta({ description: 'Elements whose preload is found instead of given.' }),
              lift: quantity(
                'length',
                'How much higher than drawn the chassis is to stand over its wheels.',
                {
                  least: -10,
                  most: 10,
                },
              ).default(0),
            })
            .optional()
            .meta({ description: 'Preloads that are set so that the vehicle stands level as it is drawn.' }),
          bodywork: bodywork.default({ outlines: [], belly: [] }),
        })
        .meta({ description: 'The vehicle.' }),
      ground: z
        .array(kinds.ground)
        .min(1)
        .max(1000)
        .meta({ description: 'Pieces of ground, one after another, from station 0.' }),
      run: run.default({ frames: 240, pulls: [] }),
      underlay: underlay.optional(),
      criteria: z
        .array(kinds.criterion)
        .max(100)
        .default([])
        .meta({ description: 'What the run must hold to.' }),
    })
    .meta({
      title: 'Axlewright scenario',
      description:
        'One vehicle, one ground, one run, and what it must hold to. Figures in SI or text with a unit. A figure known only roughly carries its spread: "2.4 kg ± 5 %" (normal, twice the standard deviation behind ±), "2.3 .. 2.6 kg" (anything between), "2.38; 2.41; 2.43 kg" (measured repeats); a run takes its middle.',
    });
}
