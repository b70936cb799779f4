import type { Vec2 } from '../../shared/geometry/vec.ts';
import type { PartLaw, PartSort } from './part.ts';
import type { Rating } from './rating.ts';

/** The drive line compiled: a tree from sources to axle lines, SI. Deeply read-only. */
export interface Driveline {
  /** A part comes after everything that turns it. */
  readonly parts: readonly DrivePart[];
  /** For each axle line of the vehicle, the part that turns it; −1 where nothing does. */
  readonly lastPart: readonly number[];
  /** What feeds the motors, where the document says so. */
  readonly supply: Supply | undefined;
}

/** A part where it sits. */
export interface DrivePart {
  readonly name: string;
  readonly kind: string;
  readonly sort: PartSort;
  /** Index in vehicle.driveline.parts of the document. */
  readonly index: number;
  /** Parts that turn it (several for motors on one shaft; none for a source), and parts that it turns. */
  readonly inputs: readonly number[];
  readonly outputs: readonly number[];
  /** Axle lines that its output turns itself. */
  readonly wheels: readonly number[];
  /** Body that holds it, and where it sits in the drawing, if the document says so. */
  readonly body: number;
  readonly at: Vec2 | undefined;
  /** Equal ones side by side: each carries its part of the torque. */
  readonly count: number;
  /** kg, all of them; already in the body. */
  readonly mass: number;
  readonly law: PartLaw;
  /** Of ONE part at its output; undefined: unknown, never taken for safe. */
  readonly rating: Rating | undefined;
  /** How its input and output shafts lie. */
  readonly axisIn: 'lengthwise' | 'across';
  readonly axisOut: 'lengthwise' | 'across';
  /** Ends of a shaft, drawn points on bodies. */
  readonly ends: readonly [ShaftEnd, ShaftEnd] | undefined;
  /** Joints: what their angle follows from; undefined where nothing says it. */
  readonly angledBy: AngledBy | undefined;
}

/** What the angle of a joint follows from: a shaft against a body's own shaft, two shafts, or a figure, rad. */
export type AngledBy =
  | { readonly kind: 'fixed'; readonly angle: number }
  | { readonly kind: 'shafts'; readonly shaft: number; readonly other: number }
  | {
      readonly kind: 'body';
      readonly shaft: number;
      readonly body: number;
      /** Direction of the body's own shaft as drawn: cosine and sine against the level; across the vehicle. */
      readonly cos: number;
      readonly sin: number;
      readonly across: boolean;
    };

export interface ShaftEnd {
  readonly body: number;
  readonly at: Vec2;
}

/** Where the current comes from. */
export interface Supply {
  /** V without load, and ohm. */
  readonly voltage: number;
  readonly resistance: number;
  /** C that it holds. */
  readonly capacity?: number | undefined;
  /** A that it gives at most. */
  readonly currentLimit?: number | undefined;
  readonly cells?: number | undefined;
}
