import type { Vec2 } from '../../shared/geometry/vec.ts';
import type { MotorLaw } from '../driveline/part.ts';
import type { Rating } from '../driveline/rating.ts';
import type { WinchEntry, WinchTask } from './fields.ts';

/** A winch compiled, SI. Deeply read-only. */
export interface Winch {
  readonly name: string;
  /** Index in vehicle.winches of the document. */
  readonly index: number;
  readonly body: number;
  /** Where the rope leaves the vehicle, drawn. */
  readonly at: Vec2;
  readonly rope: WinchEntry['rope'];
  readonly drum: WinchEntry['drum'];
  /** Own reduction between motor (or drive line part) and drum; `rating` at the drum. */
  readonly reduction: {
    readonly ratio: number;
    readonly efficiency: number;
    readonly locks: boolean;
    readonly rating: Rating | undefined;
  };
  readonly motor: MotorLaw | undefined;
  /** Part of the drive line that turns it instead; −1 for none. */
  readonly from: number;
  /** N·m that its brake holds at the drum. */
  readonly brake: number | undefined;
  readonly task: WinchTask | undefined;
}
