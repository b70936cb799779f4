/*
 * Vehicles for checks: a document built from the figures that a textbook gives (whole mass, whole centre of gravity,
 * axle places), so that the check can be read beside its source.
 */
import type { Vec2 } from '../../shared/geometry/vec.ts';
import { type Settled, settle } from '../../sim/dynamics/settle.ts';
import type { Ground } from '../../sim/ground/ground.ts';
import { layGround } from '../../sim/ground/lay.ts';
import { compile } from '../../sim/mechanism/compile.ts';
import { courseOf } from '../../sim/scenario/course.ts';
import { type Scenario, type ScenarioInput, scenarioDocument } from '../../sim/scenario/schema.ts';

type VehicleInput = ScenarioInput['vehicle'];

/** An axle line of a rig: one wheel unless `count` says otherwise, so that its figures are those of the line. */
export interface RigAxle {
  readonly name: string;
  /** Hub in the drawing, m. */
  readonly at: Vec2;
  readonly on?: string;
  readonly radius: number;
  /** kg. */
  readonly mass: number;
  /** N/m at `load` N. */
  readonly stiffness: number;
  readonly load?: number;
  readonly inertia?: number;
  readonly grip?: number;
  readonly rolling?: number;
  readonly damping?: number;
  readonly reaction?: string;
}

/** A vehicle by its whole mass and centre of gravity, wheels and members included; the chassis makes up the rest. */
export interface Rig {
  /** kg, and place in the drawing, m. */
  readonly mass: number;
  readonly cg: Vec2;
  /** Pitch inertia of the chassis about its own centre, kg·m². */
  readonly inertia?: number;
  readonly axles: readonly RigAxle[];
  readonly members?: NonNullable<VehicleInput['members']>;
  readonly elements?: NonNullable<VehicleInput['elements']>;
  /** Masses of members. */
  readonly masses?: readonly {
    readonly on: string;
    readonly mass: number;
    readonly at: Vec2;
    readonly inertia?: number;
  }[];
  readonly ground?: ScenarioInput['ground'];
  readonly drive?: Partial<VehicleInput['drive']>;
  readonly run?: NonNullable<ScenarioInput['run']>;
  readonly gravity?: number;
  /** The vehicle's reference point, drawn, m. */
  readonly reference?: Vec2;
}

/** Gravity of the textbook entries, m/s². */
export const g = 9.81;

/** Level ground, long enough for any stand. */
const level: ScenarioInput['ground'] = [{ kind: 'flat', length: 100 }];

/** What is left for the chassis when axles and members have had their share. */
function chassisOf(rig: Rig): { mass: number; at: Vec2 } {
  const parts = [...rig.axles.map(({ mass, at }) => ({ mass, at })), ...(rig.masses ?? [])];
  const mass = rig.mass - parts.reduce((sum, p) => sum + p.mass, 0);
  const moment = (axis: 'x' | 'z') =>
    rig.mass * rig.cg[axis] - parts.reduce((sum, p) => sum + p.mass * p.at[axis], 0);
  return { mass, at: { x: moment('x') / mass, z: moment('z') / mass } };
}

/** The rig as a document, as a person would write it. */
export function documentOf(rig: Rig): ScenarioInput {
  const chassis = chassisOf(rig);
  return {
    format: 'axlewright-scenario',
    version: 1,
    title: 'a rig',
    gravity: rig.gravity ?? g,
    vehicle: {
      name: 'rig',
      reference: rig.reference ?? { x: 0, z: 0 },
      masses: [
        { name: 'chassis', mass: chassis.mass, at: chassis.at, inertia: rig.inertia ?? chassis.mass * 0.01 },
        ...(rig.masses ?? []).map((m, i) => ({ name: `mass ${i}`, ...m })),
      ],
      members: [...(rig.members ?? [])],
      elements: [...(rig.elements ?? [])],
      wheels: rig.axles.map((a) => ({
        name: a.name,
        on: a.on ?? 'chassis',
        at: a.at,
        radius: a.radius,
        count: 1 as const,
        massPerWheel: a.mass,
        ...(a.inertia === undefined ? {} : { inertiaPerWheel: a.inertia }),
        ...(a.reaction === undefined ? {} : { reaction: a.reaction }),
        tyre: {
          stiffnessPerWheel: a.stiffness,
          ...(a.load === undefined ? {} : { loadPerWheel: a.load }),
          damping: a.damping ?? 0.5,
          grip: a.grip ?? 0.8,
          rolling: a.rolling ?? 0,
        },
      })),
      drive: { driven: 'all', torquePerWheel: 100, speed: 0, ...rig.drive },
    },
    ground: rig.ground ?? level,
    run: { start: 50, ...rig.run },
  };
}

/** The rig as a scenario, through the schema. */
export const scenarioOf = (rig: Rig): Scenario => scenarioDocument.parse(documentOf(rig));

/** Ground pieces laid as in a document. */
export function groundOf(pieces: ScenarioInput['ground']): Ground {
  const { ground } = scenarioDocument.pick({ ground: true }).parse({ ground: pieces });
  const laid = layGround(ground, { file: () => undefined });
  if (!laid.ok) throw new Error(JSON.stringify(laid.problems));
  return laid.value;
}

/** Sets the rig down at the start of its run. */
export function standOf(rig: Rig): Settled {
  const scenario = scenarioOf(rig);
  const ground = groundOf(rig.ground ?? level);
  return settle(compile(scenario), ground, courseOf(scenario, ground).start);
}

/** Forces across the contacts, N, one per axle line. */
export const normalsOf = ({ plant }: Settled): number[] => plant.wheels.map((w) => w.line.normal);

/** An even slope through the origin, nose up for a positive angle (rad), 100 m either side of station 100. */
export const slope = (angle: number): ScenarioInput['ground'] => [{ kind: 'ramp', length: 100, angle }];
