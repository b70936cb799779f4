import { z } from 'zod';

/** The shape of what `--json` prints, written down a second time from sim/cli/JSON.md. */
const share = z.number().min(0).max(1);
const moment = z.strictObject({ frame: z.int().min(0), time: z.number().min(0), station: z.number() });
const problem = z.strictObject({
  path: z.string(),
  message: z.string().min(1),
  hint: z.string().optional(),
  severity: z.enum(['error', 'warning']),
});
const place = { time: z.number().min(0), station: z.number() };
const ofWheel = { ...place, wheel: z.string(), wheelStation: z.number() };

const event = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('lift-off'), ...ofWheel }),
  z.strictObject({
    kind: z.literal('touch-down'),
    ...ofWheel,
    duration: z.number().min(0),
    height: z.number().min(0),
  }),
  z.strictObject({ kind: z.literal('grip-limit'), ...ofWheel }),
  z.strictObject({ kind: z.literal('torque-limit'), ...ofWheel }),
  z.strictObject({
    kind: z.literal('stop-hit'),
    ...place,
    member: z.string(),
    side: z.enum(['bump', 'droop']),
  }),
  z.strictObject({ kind: z.literal('body-touch'), ...place }),
  z.strictObject({ kind: z.literal('tip-over'), ...place }),
  z.strictObject({ kind: z.literal('snap'), ...place, of: z.string() }),
  ...(['stall', 'current-limit', 'slip'] as const).map((kind) =>
    z.strictObject({ kind: z.literal(kind), ...place, part: z.string() }),
  ),
  z.strictObject({
    kind: z.literal('skip'),
    ...place,
    part: z.string(),
    torque: z.number().positive(),
    rating: z.number().positive(),
  }),
  z.strictObject({ kind: z.literal('stuck'), ...place, cause: z.string() }),
]);

const end = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('arrived'), ...place }),
  z.strictObject({ kind: z.literal('time-up'), ...place }),
  z.strictObject({
    kind: z.literal('stuck'),
    ...place,
    cause: z.string(),
    by: z.enum(['grip', 'torque']).optional(),
  }),
  z.strictObject({ kind: z.literal('tipped'), ...place }),
  z.strictObject({
    kind: z.literal('diverged'),
    ...place,
    quantity: z.string(),
    body: z.string(),
    cause: z.string(),
  }),
]);

const measure = z.strictObject({
  name: z.string().regex(/^[a-z][A-Za-z]*$/),
  title: z.string().min(1),
  says: z.string().min(1),
  source: z.string().min(1),
  unit: z.string().min(1),
  value: z.number().nullable(),
  of: z.string().optional(),
  moment: moment.optional(),
});

const joint = z.strictObject({
  part: z.enum(['pin', 'guide', 'rod', 'member', 'element']),
  of: z.string().min(1),
  quantity: z.enum([
    'force',
    'moment',
    'pull',
    'push',
    'axial',
    'shear',
    'bending',
    'effort',
    'twist',
    'stress',
  ]),
  value: z.number(),
  unit: z.enum(['N', 'N·m', 'rad', 'Pa']),
  count: z.int().min(2).optional(),
  each: z.number().optional(),
  at: z.strictObject({ x: z.number(), z: z.number() }).optional(),
  moment,
});

const anyLine = z.strictObject({
  sort: z.enum([
    'grip',
    'motor',
    'supply',
    'gear',
    'shaft',
    'joint',
    'differential',
    'clutch',
    'winch',
    'pin',
    'rod',
    'arm',
    'bar',
    'spring',
    'balance',
    'tipping',
    'belly',
    'stop',
  ]),
  of: z.string().min(1),
  path: z.string().optional(),
  quantity: z.string().min(1),
  use: z.number().min(0).nullable(),
  carries: z.number().min(0),
  limit: z.number().nullable(),
  unit: z.string().min(1),
  how: z.enum(['given', 'measured', 'estimate', 'typical']).optional(),
  spread: z.number().min(0).optional(),
  says: z.string().min(1),
  moment: moment.optional(),
  gives: moment.optional(),
  harmless: z.literal(true).optional(),
});
const ledgerOf = z.strictObject({ lines: z.array(anyLine), says: z.string().min(1) });

const verdict = z.strictObject({
  index: z.int().min(0),
  kind: z.string(),
  asks: z.string().min(1),
  pass: z.boolean(),
  value: z.number().nullable(),
  limit: z.number().nullable(),
  unit: z.string(),
  shown: z.string(),
  says: z.string().min(1),
  cause: z.string().min(1).optional(),
  of: z.string().optional(),
  moment: moment.optional(),
});

const line = { id: z.string(), axle: z.int().min(1), count: z.int().min(1) };
const stood = { ...line, load: z.number().min(0), loadPerWheel: z.number().min(0), travel: z.number() };

const head = {
  title: z.string().min(1),
  vehicle: z.string().min(1),
  mass: z.number().positive(),
  cg: z.strictObject({ x: z.number(), z: z.number() }),
  pitchInertia: z.number().positive(),
};
const nothing = { events: z.tuple([]), verdicts: z.tuple([]) };

export const checkShape = z.strictObject({
  mode: z.literal('check'),
  ...head,
  wheels: z.array(z.strictObject(line)).min(1),
  measures: z.tuple([]),
  ...nothing,
  problems: z.array(problem),
  pass: z.literal(true),
});

export const standShape = z.strictObject({
  mode: z.literal('stand'),
  ...head,
  wheels: z.array(z.strictObject(stood)).min(1),
  measures: z.array(measure),
  ...nothing,
  problems: z.array(problem),
  pass: z.boolean(),
});

export const driveShape = z.strictObject({
  mode: z.literal('drive'),
  ...head,
  wheels: z
    .array(
      z.strictObject({
        ...stood,
        leastLoad: z.number().min(0),
        greatestLoad: z.number().min(0),
        timeOff: share,
      }),
    )
    .min(1),
  measures: z.array(measure).min(1),
  joints: z.array(joint),
  ledger: ledgerOf.optional(),
  events: z.array(event),
  verdicts: z.array(verdict),
  problems: z.array(problem),
  end,
  substep: z.number().positive(),
  pass: z.boolean(),
});

/** A crawl reports as a drive does, without the step of an engine. */
export const crawlShape = driveShape.omit({ substep: true }).extend({ mode: z.literal('crawl') });

const stoppedBy = z.enum(['grip', 'torque', 'balance', 'tipping', 'belly', 'stop', 'stand']);
const halt = z.strictObject({ by: stoppedBy, says: z.string().min(1), station: z.number() });
const curve = z
  .array(z.strictObject({ at: z.number().positive(), size: z.number().min(0), by: stoppedBy.optional() }))
  .min(1);

export const limitsShape = z.strictObject({
  mode: z.literal('limits'),
  ...head,
  grip: z.number().min(0).nullable(),
  reverse: z.boolean(),
  level: halt.nullable(),
  limits: z
    .array(
      z.strictObject({
        kind: z.string().regex(/^[a-z-]+$/),
        title: z.string().min(1),
        measures: z.string().min(1),
        unit: z.enum(['m', 'rad']),
        limit: z.number().min(0),
        halt: halt.nullable(),
        most: z.number().positive(),
        remarks: z.array(z.string().min(1)),
        today: z.number().positive().nullable(),
        margin: z.number().min(-1).nullable(),
        overGrip: curve.optional(),
        overMass: curve.optional(),
      }),
    )
    .min(1),
  problems: z.array(problem),
  pass: z.boolean(),
});

const known = z.number().nullable();
const duty = z.strictObject({
  speed: z.number(),
  power: known,
  current: known,
  voltage: known,
  efficiency: known,
  time: known,
  distance: known,
});
const bend = z.strictObject({
  of: z.string(),
  path: z.string(),
  joint: z.enum(['cardan', 'constant']),
  angle: known,
  mostAngle: known,
  speedRatio: z.strictObject({ least: z.number(), most: z.number() }).nullable(),
  errorAngle: known,
  moment: moment.optional(),
});

export const performanceShape = z.strictObject({
  mode: z.literal('performance'),
  ...head,
  drag: z.number().min(0),
  line: z
    .array(
      z.strictObject({
        speed: z.number().min(0),
        thrust: z.number().min(0),
        power: z.number().min(0),
        voltage: known,
        current: known,
        efficiency: known,
      }),
    )
    .length(61),
  topSpeed: known,
  steepest: z.strictObject({ angle: z.number(), speed: z.number() }).nullable(),
  atTarget: z.strictObject({ speed: z.number(), angle: z.number() }).nullable(),
  grades: z.array(z.strictObject({ angle: z.number(), speed: known })),
  level: duty.nullable(),
  sources: z.array(
    z.strictObject({
      of: z.string(),
      path: z.string(),
      stall: z
        .strictObject({
          torque: z.number(),
          current: known,
          heat: known,
          time: known,
          lasts: z.enum(['for ever', 'a time', 'unknown']),
        })
        .nullable(),
      map: z
        .strictObject({
          torques: z.array(z.number()),
          speeds: z.array(z.number()),
          values: z.array(z.array(share.nullable())),
          best: z.strictObject({ torque: z.number(), speed: z.number(), efficiency: share }),
        })
        .nullable(),
    }),
  ),
  joints: z.array(bend),
  assumed: z.array(z.strictObject({ of: z.string(), says: z.string() })),
  crossing: z
    .strictObject({
      duty: duty.nullable(),
      joints: z.array(bend),
      windUp: z.array(
        z.strictObject({
          lines: z.array(
            z.strictObject({ of: z.string(), torque: z.number().min(0), slips: z.boolean(), moment }),
          ),
          parts: z.array(
            z.strictObject({
              of: z.string(),
              path: z.string(),
              torque: z.number().min(0),
              use: known,
              moment,
            }),
          ),
        }),
      ),
    })
    .optional(),
  problems: z.array(problem),
  pass: z.boolean(),
});

export const ledgerShape = z.strictObject({
  mode: z.literal('ledger'),
  ...head,
  ledger: ledgerOf,
  first: anyLine.nullable(),
  topSpeed: z.number().min(0).nullable(),
  stored: z.array(
    z.strictObject({
      of: z.string(),
      sort: z.enum(['bar', 'spring']),
      each: z.number().positive(),
      all: z.number().positive(),
      says: z.string().min(1),
      moment,
    }),
  ),
  alternatives: z.array(
    z.strictObject({
      kind: z.string().regex(/^[a-z-]+$/),
      title: z.string().min(1),
      says: z.string().min(1),
      sets: z.array(z.strictObject({ path: z.string().min(1), value: z.union([z.number(), z.string()]) })),
      holds: z.boolean(),
      first: anyLine.nullable(),
      mass: z.number().positive(),
      topSpeed: z.number().min(0).nullable(),
    }),
  ),
  end,
  problems: z.array(problem),
  pass: z.boolean(),
});

export const massShape = z.strictObject({
  mode: z.literal('mass'),
  ...head,
  spread: z.union([z.literal('items'), z.strictObject({ x: z.number(), z: z.number() })]),
  greatest: z.number().positive().nullable(),
  margin: z.number().min(-1).nullable(),
  more: z.number().nullable(),
  factor: z.number().positive().nullable(),
  setBy: anyLine.nullable(),
  most: z.number().positive(),
  least: z.number().positive(),
  unhelped: z.array(anyLine),
  curve: z
    .strictObject({
      obstacle: z.string().regex(/^[a-z-]+$/),
      title: z.string().min(1),
      unit: z.enum(['m', 'rad']),
      there: z.number().positive().nullable(),
      points: z
        .array(
          z.strictObject({
            mass: z.number().positive(),
            size: z.number().min(0),
            setBy: anyLine.nullable(),
          }),
        )
        .min(12),
    })
    .optional(),
  problems: z.array(problem),
  pass: z.boolean(),
});

export const unreadableShape = z.strictObject({
  mode: z.enum(['check', 'stand', 'drive', 'crawl', 'limits', 'ledger', 'mass']),
  wheels: z.tuple([]),
  measures: z.tuple([]),
  ...nothing,
  problems: z.array(problem).min(1),
  pass: z.literal(false),
});

/** The shape of `winch --json` and `steer --json`. */
const force = z.number().min(0);
const ledgerLine = z.strictObject({
  sort: z.enum(['winch', 'gear', 'motor', 'supply', 'shaft', 'joint', 'differential', 'clutch']),
  of: z.string(),
  path: z.string(),
  quantity: z.enum(['force', 'tension', 'torque', 'current']),
  use: force.nullable(),
  carries: force,
  limit: force.nullable(),
  unit: z.enum(['N', 'N·m', 'A']),
  how: z.enum(['given', 'measured', 'estimate', 'typical']).optional(),
  spread: force.optional(),
  says: z.string().min(1),
});
const rigHead = {
  title: z.string(),
  vehicle: z.string(),
  mass: force,
  cg: z.strictObject({ x: z.number(), z: z.number() }),
  pitchInertia: force,
  problems: z.array(problem),
  pass: z.boolean(),
};
const lift = { force, tension: force, can: z.boolean().nullable() };

export const winchShape = z.strictObject({
  mode: z.literal('winch'),
  ...rigHead,
  winches: z.array(
    z.strictObject({
      name: z.string(),
      task: z.strictObject({
        slope: z.number(),
        hole: force,
        rolling: force.optional(),
        lines: z.int().min(1),
        sheave: share,
        towards: z.enum(['front', 'rear']),
        anchor: z.strictObject({
          distance: force.optional(),
          height: z.number().optional(),
          strength: force.optional(),
        }),
      }),
      kind: z.enum(['hauled', 'tips', 'none']),
      force,
      rise: z.number(),
      hole: z.strictObject({ line: z.string(), all: force.nullable() }).nullable(),
      gain: z.number().min(1),
      tension: force,
      layers: z.array(
        z.strictObject({
          layer: z.int().min(1),
          diameter: force,
          turns: z.int().min(1),
          length: force,
          upTo: force,
          pull: force.nullable(),
          speed: force.nullable(),
        }),
      ),
      layer: z.int().min(1),
      layerKnown: z.boolean(),
      out: force.nullable(),
      short: z.boolean(),
      drumTorque: force,
      current: force.nullable(),
      speed: force.nullable(),
      anchor: force,
      wheels: z.array(
        z.strictObject({
          name: z.string(),
          axle: z.int().min(1),
          parked: force.nullable(),
          load: force,
          off: z.boolean(),
        }),
      ),
      withDrive: force.nullable(),
      ownEnd: z.strictObject({ line: z.string(), ...lift }).nullable(),
      hung: z.strictObject(lift),
      energy: force.nullable(),
      uses: z.array(ledgerLine).min(1),
      remarks: z.array(z.string()),
      cautions: z.array(z.string()).min(1),
      pass: z.boolean(),
    }),
  ),
});

const steerPoint = z.strictObject({ angle: z.number(), turn: z.number(), least: force, most: force });
export const steerShape = z.strictObject({
  mode: z.literal('steer'),
  ...rigHead,
  loads: z.enum(['stand', 'crawl']),
  steering: z.array(
    z.strictObject({
      name: z.string(),
      wheels: z.array(
        z.strictObject({
          line: z.string(),
          axle: z.int().min(1),
          count: z.int().min(1),
          load: force,
          offset: z.number(),
          trail: z.number(),
          length: force,
          width: force,
          widthGuessed: z.boolean(),
          friction: force,
          square: force,
          round: force,
          jacking: z.number(),
        }),
      ),
      points: z.array(steerPoint).min(1),
      worst: steerPoint,
      uses: z.array(ledgerLine).length(1),
      remarks: z.array(z.string()),
      cautions: z.array(z.string()).min(1),
      pass: z.boolean(),
      station: z.number().optional(),
    }),
  ),
});
