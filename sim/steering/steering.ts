import type { SteeringEntry } from './fields.ts';

/** A steering compiled, SI. Deeply read-only. */
export interface Steering extends Omit<SteeringEntry, 'lines'> {
  /** Index in vehicle.steering of the document. */
  readonly index: number;
  readonly lines: readonly SteeredLine[];
}

/** One steered axle line. */
export interface SteeredLine {
  /** Axle line. */
  readonly wheel: number;
  /** Greatest angle, rad. */
  readonly most: number;
  /** King-pin offset at the ground as drawn (scrub radius), m, outward positive. */
  readonly offset: number;
  /** Whether that follows from the hub, so that a tyre that gives way makes it larger. */
  readonly fromHub: boolean;
  /** rad: inward, and rearward at the top. */
  readonly inclination: number;
  readonly caster: number;
  /** Contact, m: width undefined where neither line nor wheel says it; length undefined where load and tyre decide. */
  readonly width: number | undefined;
  readonly length: number | undefined;
  readonly friction: number;
}
