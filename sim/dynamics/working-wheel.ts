import type { Wheel } from '../mechanism/mechanism.ts';
import type { TyreLine } from '../tyre/line.ts';

/** An axle line at work. */
export interface WorkingWheel {
  readonly wheel: Wheel;
  readonly line: TyreLine;
  /** Roll angle since the start, rad, and roll rate, rad/s; forward positive. */
  roll: number;
  rate: number;
  /** Drive torque of this substep, N·m, forward positive. */
  torque: number;
  lastCarrierAngle: number;
  lastRoll: number;
}
