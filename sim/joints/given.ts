import type { Kinematics } from '../mechanism/kinematics.ts';
import type { Mechanism } from '../mechanism/mechanism.ts';

/** Where the bodies are: frames and centres of mass, as Kinematics has them. */
export type Placement = Pick<Kinematics, 'x' | 'z' | 'cos' | 'sin' | 'cx' | 'cz'>;

/** What a solver found and the free bodies are to carry, SI; written before the sums are made. World axes. */
export interface Given {
  /** Force of the ground on the hub of each axle line, N. */
  readonly groundX: Float64Array;
  readonly groundZ: Float64Array;
  /** Drive torque of each line, N·m, forward positive: its reaction turns the bodies that take it nose-up. */
  readonly torque: Float64Array;
  /** Torque with which a locked line holds on to its own carrier, N·m, counter-clockwise on the carrier. */
  readonly holding: Float64Array;
  /** Effort of each element, all of its equal ones together, along its coordinate: N or N·m. */
  readonly effort: Float64Array;
  /** Coordinate of each element, m or rad from the drawn position, bump positive; only passed on. */
  readonly travel: Float64Array;
  /** Tension of each rod, N, pull positive. */
  readonly tension: Float64Array;
  /** Acceleration of each body's centre of mass, m/s², its angular acceleration, rad/s², and spin, rad/s; 0 at rest. */
  readonly ax: Float64Array;
  readonly az: Float64Array;
  readonly alpha: Float64Array;
  readonly spin: Float64Array;
}

/** Room for what is given on this mechanism, all zero. */
export function makeGiven({ wheels, elements, rods, bodies }: Mechanism): Given {
  const row = (list: readonly unknown[]) => new Float64Array(list.length);
  return {
    groundX: row(wheels),
    groundZ: row(wheels),
    torque: row(wheels),
    holding: row(wheels),
    effort: row(elements),
    travel: row(elements),
    tension: row(rods),
    ax: row(bodies),
    az: row(bodies),
    alpha: row(bodies),
    spin: row(bodies),
  };
}
