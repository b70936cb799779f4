import type { z } from 'zod';
import type { Vec2 } from '../../shared/geometry/vec.ts';
import { type Scenario, type ScenarioInput, scenarioDocument } from '../scenario/schema.ts';
import type { PartEntry } from './compile.ts';

type Vehicle = Scenario['vehicle'];
/** A drive line as a document has it. */
export type DrivelineInput = NonNullable<ScenarioInput['vehicle']['driveline']>;
type PartInput = DrivelineInput['parts'][number];
type MotorEntry = Extract<PartEntry, { kind: 'motor' }>;

/** What a layout is made with; ratios from the motor to the wheels, speed in over speed out. */
export interface LayoutFigures {
  /** The motor, or each of them where there are several. */
  readonly motor: Pick<MotorEntry, 'stallTorque' | 'noLoadSpeed'> & Partial<MotorEntry>;
  /** Axle lines that are driven, by their place in the document, each with its whole reduction. */
  readonly lines: readonly {
    readonly wheel: number;
    readonly ratio: number;
    /** Torque that its last reduction may carry, N·m, all wheels of the line together. */
    readonly rating?: number | undefined;
  }[];
  readonly battery?: BatteryOf;
}

type BatteryOf = NonNullable<Vehicle['driveline']>['battery'];

/** A way to lay out a drive line, as data for a given vehicle. */
export interface DriveLayout {
  /** Name in lists and documents, lower case with hyphens. */
  readonly kind: string;
  readonly title: string;
  readonly says: string;
  /** The drive line as a document has it, SI; undefined where this vehicle has no place for it. */
  build(vehicle: Vehicle, figures: LayoutFigures): DrivelineInput | undefined;
}

/** Typical share of a whole reduction that sits in the final drive or at the hub. Common practice, no source. */
const finalRatio = 3;
const hubRatio = 2.5;

const bodyOf = (vehicle: Vehicle, wheel: number): string => vehicle.wheels[wheel]?.on ?? 'chassis';
const nameOf = (vehicle: Vehicle, wheel: number): string =>
  vehicle.wheels[wheel]?.name ?? `line ${wheel + 1}`;
const hubOf = (vehicle: Vehicle, wheel: number): Vec2 => vehicle.wheels[wheel]?.at ?? { x: 0, z: 0 };

/** Figures of a motor without what says where it sits and what it is called. */
function motorPart(
  motor: LayoutFigures['motor'],
  own: {
    readonly name: string;
    readonly axis: 'lengthwise' | 'across';
    readonly on: string;
    readonly at: Vec2;
  },
): PartInput {
  const {
    from: _from,
    wheels: _wheels,
    kind: _kind,
    rating: _rating,
    ...figures
  } = motor as Partial<MotorEntry>;
  const known = Object.fromEntries(Object.entries(figures).filter(([, value]) => value !== undefined));
  return { ...known, ...own, kind: 'motor' } as PartInput;
}

/** Where shafts leave the gearbox: in the middle of the widest gap between axle lines, a little above the hubs. */
function middle(vehicle: Vehicle, lines: LayoutFigures['lines']): Vec2 {
  const hubs = lines.map(({ wheel }) => hubOf(vehicle, wheel)).sort((p, q) => q.x - p.x);
  const radius = Math.max(...lines.map(({ wheel }) => vehicle.wheels[wheel]?.radius ?? 0));
  const gaps = hubs.slice(1).map((hub, i) => ({ from: hub.x, wide: (hubs[i]?.x ?? 0) - hub.x }));
  const widest = gaps.reduce((best, gap) => (gap.wide > best.wide ? gap : best), {
    from: (hubs[0]?.x ?? 0) - 4 * radius,
    wide: 0,
  });
  return { x: widest.from + widest.wide / 2, z: Math.max(...hubs.map((p) => p.z)) + 0.25 * radius };
}

/** Where a shaft that goes on begins: the part that turns it, the body that holds its end, and the end as drawn. */
interface Outlet {
  readonly from: string;
  readonly on: string;
  readonly at: Vec2;
}

/** How far from a gearbox and from a hub shafts end, wheel radii. */
const clear = { box: 0.2, hub: 0.4 } as const;

/**
 * Shafts from the gearbox to all axle lines, on each side from one to the next, with a universal joint at both ends; on one
 * body, or bolted to the chassis, a shaft goes straight through. Returns the parts, and what turns each line's final drive.
 */
function shaftsTo(
  vehicle: Vehicle,
  lines: LayoutFigures['lines'],
  box: Vec2,
): { readonly parts: PartInput[]; readonly last: ReadonlyMap<number, string> } {
  const parts: PartInput[] = [];
  const last = new Map<number, string>();
  for (const sign of [1, -1]) {
    const radius = Math.max(...vehicle.wheels.map((w) => w.radius));
    let outlet: Outlet = {
      from: 'gearbox',
      on: 'chassis',
      at: { x: box.x + sign * clear.box * radius, z: box.z },
    };
    const side = lines
      .map(({ wheel }) => wheel)
      .filter((wheel) => (hubOf(vehicle, wheel).x >= box.x ? 1 : -1) === sign)
      .sort((v, w) => sign * (hubOf(vehicle, v).x - hubOf(vehicle, w).x));
    for (const wheel of side) {
      const added = shaftFrom(vehicle, wheel, outlet, sign);
      parts.push(...added.parts);
      last.set(wheel, added.last);
      const hub = hubOf(vehicle, wheel);
      const beyond = { x: hub.x + sign * clear.hub * (vehicle.wheels[wheel]?.radius ?? 0), z: hub.z };
      outlet = { from: added.last, on: bodyOf(vehicle, wheel), at: beyond };
    }
  }
  return { parts, last };
}

function shaftFrom(
  vehicle: Vehicle,
  wheel: number,
  { from, on: holder, at }: Outlet,
  sign: number,
): { parts: PartInput[]; last: string } {
  const [name, on, hub] = [nameOf(vehicle, wheel), bodyOf(vehicle, wheel), hubOf(vehicle, wheel)];
  const shaft = `${name} shaft`;
  if (on === holder) return { parts: [{ name: shaft, kind: 'shaft', from, on } as PartInput], last: shaft };
  const far = { x: hub.x - sign * clear.hub * (vehicle.wheels[wheel]?.radius ?? 0), z: hub.z };
  const [inner, outer] = [`${name} inner joint`, `${name} outer joint`];
  const ends = [
    { on: holder, ...at },
    { on, ...far },
  ];
  return {
    parts: [
      { name: inner, kind: 'universal-joint', from, on: holder, shaft },
      { name: shaft, kind: 'shaft', from: inner, ends },
      { name: outer, kind: 'universal-joint', from: shaft, on, shaft },
    ] as PartInput[],
    last: outer,
  };
}

const rated = (rating: number | undefined) => (rating === undefined ? {} : { rating });
const whole = (battery: BatteryOf, parts: PartInput[]): DrivelineInput =>
  ({ ...(battery === undefined ? {} : { battery }), parts }) as DrivelineInput;

/** The wheels' own share of each line's reduction beside what all lines have in common in the gearbox. */
function gearbox(lines: LayoutFigures['lines'], last: number): { common: number; finals: number[] } {
  const least = Math.min(...lines.map(({ ratio }) => ratio));
  const common = Math.max(1, least / last);
  return { common, finals: lines.map(({ ratio }) => ratio / common) };
}

/** One motor and gearbox on the chassis, a shaft with two joints to each axle, a bevel final drive in it. */
export const oneMotor: DriveLayout = {
  kind: 'one-motor',
  title: 'One motor, gearbox, shafts and joints',
  says: 'One motor on the chassis turns all axles through a gearbox, shafts with universal joints, and bevel final drives. The joints carry what the final drives have not yet multiplied.',
  build: (vehicle, figures) => shafted(vehicle, figures, undefined),
};

/** The same with a part of the reduction behind the joints, in portals or hubs. */
export const hubReductions: DriveLayout = {
  kind: 'hub-reductions',
  title: 'Reduction behind the joints',
  says: 'As with one motor, but portals or hub reductions multiply the torque at the wheels: shafts, joints and final drives turn faster and carry less.',
  build: (vehicle, figures) => shafted(vehicle, figures, hubRatio),
};

function shafted(
  vehicle: Vehicle,
  { motor, lines, battery }: LayoutFigures,
  hub: number | undefined,
): DrivelineInput {
  const box = middle(vehicle, lines);
  const { common, finals } = gearbox(lines, finalRatio * (hub ?? 1));
  const parts: PartInput[] = [
    motorPart(motor, { name: 'motor', axis: 'lengthwise', on: 'chassis', at: box }),
    { name: 'gearbox', kind: 'reduction', from: 'motor', ratio: common, sense: 'same' } as PartInput,
  ];
  const { parts: shafts, last } = shaftsTo(vehicle, lines, box);
  parts.push(...shafts);
  lines.forEach(({ wheel, rating }, i) => {
    const name = nameOf(vehicle, wheel);
    const on = bodyOf(vehicle, wheel);
    const ratio = (finals[i] ?? 1) / (hub ?? 1);
    const final = {
      name: `${name} final drive`,
      kind: 'reduction',
      mesh: 'bevel',
      from: last.get(wheel),
      on,
      ratio,
    };
    if (hub === undefined) parts.push({ ...final, wheels: [name], ...rated(rating) } as PartInput);
    else {
      const count = vehicle.wheels[wheel]?.count ?? 1;
      parts.push(
        final as PartInput,
        {
          name: `${name} hub reductions`,
          kind: 'hub-reduction',
          from: `${name} final drive`,
          on,
          ratio: hub,
          sense: 'same',
          count,
          wheels: [name],
          ...rated(rating === undefined ? undefined : rating / count),
        } as PartInput,
      );
    }
  });
  return whole(battery, parts);
}

/** A motor on each axle, across, with all of the reduction between it and the wheels. */
function axleMotor(
  vehicle: Vehicle,
  motor: LayoutFigures['motor'],
  line: LayoutFigures['lines'][number],
): PartInput[] {
  const { wheel, ratio, rating } = line;
  const [name, on, at] = [nameOf(vehicle, wheel), bodyOf(vehicle, wheel), hubOf(vehicle, wheel)];
  return [
    motorPart(motor, { name: `${name} motor`, axis: 'across', on, at }),
    {
      name: `${name} final drive`,
      kind: 'reduction',
      mesh: 'planetary',
      from: `${name} motor`,
      on,
      ratio,
      wheels: [name],
      ...rated(rating),
    } as PartInput,
  ];
}

export const motorPerAxle: DriveLayout = {
  kind: 'motor-per-axle',
  title: 'A motor for each axle',
  says: 'Each axle has a motor and a planetary final drive of its own: no shafts and no joints, more unsprung mass, and no lock between the axles.',
  build: (vehicle, { motor, lines, battery }) =>
    whole(
      battery,
      lines.flatMap((line) => axleMotor(vehicle, motor, line)),
    ),
};

/** A gear train inside a bogie beam, turned by a motor at its pivot; axles that hang on no beam have motors of their own. */
export const beamTrain: DriveLayout = {
  kind: 'beam-train',
  title: 'Gear train inside the bogie beam',
  says: 'A motor on the chassis turns a shaft in the pivot of the bogie; gears along the beam turn both of its axles. The pivot takes the place of shafts and joints.',
  build(vehicle, { motor, lines, battery }) {
    const beams = [...new Set(lines.map(({ wheel }) => bodyOf(vehicle, wheel)))].filter(
      (on) =>
        vehicle.members.some((m) => m.name === on && m.kind === 'bogie-beam') &&
        lines.filter(({ wheel }) => bodyOf(vehicle, wheel) === on).length > 1,
    );
    if (beams.length === 0) return undefined;
    const alone = lines.filter(({ wheel }) => !beams.includes(bodyOf(vehicle, wheel)));
    return whole(battery, [
      ...alone.flatMap((line) => axleMotor(vehicle, motor, line)),
      ...beams.flatMap((beam) => beamParts(vehicle, motor, lines, beam)),
    ]);
  },
};

function beamParts(
  vehicle: Vehicle,
  motor: LayoutFigures['motor'],
  lines: LayoutFigures['lines'],
  beam: string,
): PartInput[] {
  const own = lines.filter(({ wheel }) => bodyOf(vehicle, wheel) === beam);
  const member = vehicle.members.find((m) => m.name === beam && m.kind === 'bogie-beam');
  const at = member?.kind === 'bogie-beam' ? member.pivot : hubOf(vehicle, own[0]?.wheel ?? 0);
  const { common, finals } = gearbox(own, 1.5);
  const rating = own.find((line) => line.rating !== undefined)?.rating;
  return [
    motorPart(motor, { name: `${beam} motor`, axis: 'across', on: 'chassis', at }),
    {
      name: `${beam} gearbox`,
      kind: 'reduction',
      mesh: 'planetary',
      from: `${beam} motor`,
      ratio: common,
    } as PartInput,
    {
      name: `${beam} gear train`,
      kind: 'reduction',
      from: `${beam} gearbox`,
      on: beam,
      ratio: finals[0] ?? 1,
      sense: 'same',
      wheels: own.map(({ wheel }) => nameOf(vehicle, wheel)),
      ...rated(rating),
    } as PartInput,
  ];
}

/** The starting layouts of drive lines, in the order in which they are offered. */
export const driveLayouts = [
  oneMotor,
  hubReductions,
  motorPerAxle,
  beamTrain,
] as const satisfies readonly DriveLayout[];

/** Grip that a motor is to be strong enough for, and how much faster than the target speed it is to drive: definitions of our own. */
const pullsFor = 1;
const fasterBy = 2;
/** No-load speed of a motor to begin with, rad/s, and the share of the torque that gears lose on the way: common practice, no source. */
const motorSpeed = 1000;
const passes = 0.8;

/**
 * Figures to begin with for a vehicle whose motor is not chosen yet: reductions that let it go twice its target speed, and
 * a motor that pulls it with a grip of 1 at standstill. `motors`: how many share that. Definition of our own.
 */
export function startingFigures(vehicle: Vehicle, motors = 1): LayoutFigures {
  const mass =
    vehicle.masses.reduce((sum, item) => sum + item.mass * item.count, 0) +
    vehicle.wheels.reduce((sum, w) => sum + w.massPerWheel * w.count, 0);
  const radius = Math.max(...vehicle.wheels.map((w) => w.radius));
  const speed = fasterBy * Math.max(Math.abs(vehicle.drive.speed), radius);
  const { driven } = vehicle.drive;
  const lines = vehicle.wheels.flatMap((w, wheel) =>
    driven === 'all' || driven.includes(w.name) ? [{ wheel, ratio: (motorSpeed * w.radius) / speed }] : [],
  );
  const ratio = Math.max(...lines.map((line) => line.ratio), 1);
  const stallTorque = (pullsFor * mass * 9.80665 * radius) / (ratio * passes * motors);
  return { motor: { stallTorque: Number(stallTorque.toPrecision(2)), noLoadSpeed: motorSpeed }, lines };
}

/** A drive line in SI with all defaults filled in, as a read scenario has it. */
export function readDriveline(input: DrivelineInput): NonNullable<Vehicle['driveline']> {
  const { vehicle } = scenarioDocument.shape;
  return (vehicle.shape.driveline as z.ZodType).parse(input) as NonNullable<Vehicle['driveline']>;
}
