import type { RunEnd } from '../../shared/recording.ts';
import { spent, stalls } from './drive-watch.ts';
import type { Plant } from './plant.ts';
import { gripUseOf } from './snapshot.ts';

/** Where and when a run is to end. */
export interface Goal {
  /** Station to arrive at, m, and the sense of driving: +1 forward, −1 back, 0 parked. */
  readonly until: number;
  readonly sense: -1 | 0 | 1;
  /** Longest run, s. */
  readonly time: number;
  /** Target speed, m/s, without sign. */
  readonly speed: number;
}

/** Chassis pitch beyond the ground's own slope at which a truck has tipped over, rad (75°: no truck stands there). */
const tipped = 1.3;
/** Progress below this share of the target speed is none. */
const noProgress = 0.02;

/** Watches for the end of a run, once a frame. */
export class Ending {
  readonly #goal: Goal;
  readonly #window: number;
  readonly #marks: { time: number; station: number; struggling: boolean }[] = [];

  constructor(goal: Goal, size: number, gravity: number) {
    this.#goal = goal;
    // long enough for a truck to gather itself: a hundred times the time in which a wheel falls by its radius
    this.#window = 20 * Math.sqrt(size / gravity);
  }

  /** The end, if the run has come to one at this time, s. */
  look(plant: Plant, time: number): RunEnd | undefined {
    const station = plant.reference().x;
    const { until, sense, time: most } = this.#goal;
    if (sense !== 0 && sense * (station - until) >= 0) return { kind: 'arrived', time, station };
    if (Math.abs(plant.k.angle[0] as number) > tipped) return { kind: 'tipped', time, station };
    const cause = this.#stuck(plant, time, station);
    if (cause !== undefined) return { kind: 'stuck', time, station, cause };
    // frames lie at sums of substeps: one that is rounding short of the time is at it
    return time >= most * (1 - 1e-9) ? { kind: 'time-up', time, station } : undefined;
  }

  /** No progress over the whole window while torque or grip was at its limit for most of it: why, or undefined. */
  #stuck(plant: Plant, time: number, station: number): string | undefined {
    const { sense, speed } = this.#goal;
    if (sense === 0) return undefined;
    const driven = plant.wheels.filter((w) => w.wheel.driven && w.line.normal > 0);
    const atTorque = tired(plant);
    // of no grip at all, none can be used: such a wheel is at its limit as it stands
    const atGrip = driven.filter((w) => w.wheel.tyre.grip === 0 || gripUseOf(w) > 0.99);
    this.#marks.push({
      time,
      station,
      struggling: driven.length === 0 || atTorque.length > 0 || atGrip.length > 0,
    });
    while ((this.#marks[1]?.time ?? time) <= time - this.#window) this.#marks.shift();
    const first = this.#marks[0];
    if (!first || time - first.time < 0.99 * this.#window) return undefined;
    const struggled = this.#marks.filter((m) => m.struggling).length;
    if (
      sense * (station - first.station) > noProgress * speed * this.#window ||
      struggled < 0.5 * this.#marks.length
    )
      return undefined;
    if (driven.length === 0) return 'no driven wheel touches the ground';
    if (driven.every((w) => w.wheel.tyre.grip === 0)) return 'no driven wheel has any grip';
    if (atTorque.length > 0) return `torque at its limit: ${atTorque.join(', ')}`;
    return `grip at its limit: ${(atGrip.length > 0 ? atGrip : driven).map((w) => w.wheel.name).join(', ')}`;
  }
}

/** Names of what is at the end of its torque: motors that stall with all they have, or driven axle lines with limits of their own. */
function tired({ tree, wheels }: Plant): string[] {
  if (tree !== undefined)
    return tree.motors.filter((m) => spent(m, tree) && stalls(m)).map(({ part }) => part.name);
  return wheels
    .filter((w) => w.wheel.driven && w.line.normal > 0 && Math.abs(w.torque) >= 0.999 * w.wheel.torqueLimit)
    .map(({ wheel }) => wheel.name);
}
