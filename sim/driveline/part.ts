import type { z } from 'zod';
import type { Rating } from './rating.ts';

/**
 * What a part of the drive line does with torque and speed, figures of ONE part. Torques and speeds count in the sense
 * that drives the vehicle forward, on the way from a source to the wheels: `in` is the side of the source.
 */
export interface PartLaw {
  /** Speed in over speed out, above 0; 1 for everything but reductions. Torque out over torque in without losses. */
  readonly ratio: number;
  /** Share of the power that passes from the source to the wheels, above 0 and at most 1. */
  readonly driving: number;
  /** Share of the power that passes back from the wheels; 0 for a drive that locks itself. */
  readonly backDriving: number;
  /** −1 where input and output turn opposite ways; it decides what the housing holds. */
  readonly sense: 1 | -1;
  /** Whether input and output lie at right angles (bevel, worm): lengthwise becomes across. */
  readonly turnsCorner: boolean;
  /** How it splits torque among its outputs; undefined: all outputs turn alike, as on one shaft. */
  readonly split?: Split;
  /** Torque at its output above which it slips, N·m. */
  readonly slipTorque?: number;
  /** Passes torque in the driving direction only. */
  readonly oneWay?: true;
  readonly motor?: MotorLaw;
  readonly angled?: Angled;
  /** Shafts: how far their ends lie apart across the vehicle, m. */
  readonly reach?: number;
  /** Twist stiffness of its shaft, N·m/rad. */
  readonly stiffness?: number;
  /** Pulls a rope instead of turning wheels. */
  readonly winch?: true;
  /** Where a figure is a value of the trade and not of this part: 'efficiency typical of a spur pair'. */
  readonly assumed: readonly string[];
}

/** How a differential shares torque. `locked`: its outputs turn alike. */
export interface Split {
  readonly mode: 'open' | 'locked' | 'limited';
  /** Share of the input torque of each output while open, in the order of the outputs; equal when undefined. */
  readonly shares?: readonly number[];
  /** `limited`: the slower side gets at most `bias` times the torque of the faster one, plus `preload` N·m. */
  readonly bias: number;
  readonly preload: number;
}

/** A motor's straight line, at the voltage that its figures are for; ONE motor. Source: linear DC motor, any text. */
export interface MotorLaw {
  /** N·m at standstill and rad/s without load. */
  readonly stallTorque: number;
  readonly noLoadSpeed: number;
  /** A; undefined where not known. */
  readonly stallCurrent?: number;
  readonly noLoadCurrent?: number;
  /** V of the figures above; that of the supply when undefined. */
  readonly voltage?: number;
  /** A that motor or its controller allow each motor. */
  readonly currentLimit?: number;
  /** Controller that it shares; its limit, shared equally, is in `currentLimit` already once compiled. */
  readonly controller?: string;
  /** N·m that it holds for as long as one likes (thermal). */
  readonly continuousTorque?: number;
  /** J/K of winding, K/W to the surroundings, K of rise allowed: time to the limit at stall. */
  readonly thermal?: { readonly heatCapacity: number; readonly resistance?: number; readonly rise: number };
  /** kg·m² of the rotor. */
  readonly inertia: number;
  /** Torque over speed instead of the line (an engine): rising speeds, rad/s, N·m. */
  readonly curve?: readonly { readonly speed: number; readonly torque: number }[];
}

/** A joint that bends: where its angle comes from, and what the angle does. */
export interface Angled {
  /** `cardan`: torque and speed ripple over a turn; `constant`: they don't. */
  readonly joint: 'cardan' | 'constant';
  /** Shaft on one side, by name: the nearest one with two ends when undefined. */
  readonly shaft?: string;
  /** The other side: another shaft by name, or a body with its own shaft at a drawn angle (rad, nose-up). */
  readonly against?: { readonly shaft: string } | { readonly on?: string; readonly angle: number };
  /** An angle that stays, rad. */
  readonly fixed?: number;
  /** Angle of the yoke towards the wheels against the next joint's, rad; 0: aligned, so that a pair cancels out. */
  readonly phase: number;
  /** Angle that it can take, rad. */
  readonly mostAngle?: number;
  /** Rating at an angle over the rating straight, 0 to 1. `angle` in rad, never below 0. */
  derate(angle: number): number;
}

/** One kind of drive line part. One file each in kinds; one line in registry.ts. */
export interface PartKind<S extends z.ZodObject = z.ZodObject> {
  /** Name in the document, lower case with hyphens. */
  readonly kind: string;
  readonly title: string;
  /** Symbol group for the diagram and the ledger. */
  readonly sort: PartSort;
  /** Where law and typical figures are written down. */
  readonly source: string;
  /** Strict object of the kind's own fields, besides the common ones (see drivelineFields in schema.ts). */
  readonly fields: S;
  /** Law of ONE part for parsed SI figures. */
  law(params: z.output<S>): PartLaw;
  /** Rating that follows from the kind's own fields, where the part has no `rating` of its own. */
  rating?(params: z.output<S>): Rating | undefined;
  readonly sample: z.input<S>;
  /** Sits on the carrier of its wheels when the document says nothing. */
  readonly onCarrier?: true;
}

export type PartSort = 'motor' | 'gear' | 'shaft' | 'joint' | 'differential' | 'clutch' | 'winch';

/** Declares a part kind; keeps the type of its fields. */
export function definePart<S extends z.ZodObject, const N extends string>(
  kind: PartKind<S> & { readonly kind: N },
): PartKind<S> & { readonly kind: N } {
  return kind;
}

/** Law of a part that passes everything on as it is. */
export const straightThrough: PartLaw = {
  ratio: 1,
  driving: 1,
  backDriving: 1,
  sense: 1,
  turnsCorner: false,
  assumed: [],
};
