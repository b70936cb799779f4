import type { Kinematics } from '../../mechanism/kinematics.ts';
import type { Branch } from './branch.ts';
import type { Feeder } from './feeder.ts';

/** A shaft gets this much inertia over that of the wheels that hang on it, so that nothing is divided by zero. */
const leastInertia = 1e-6;

/** A shaft with one motor or several on it, and everything that it turns. */
export class SourceShaft {
  readonly feeders: readonly Feeder[];
  readonly branch: Branch;
  /** Speed in the world, rad/s. */
  speed = 0;
  /** Weight of its motors in the mean speed that the regulator reads: their power, W. */
  readonly power: number;
  /** Speed when every wheel rolls at 1 m/s, rad/m. */
  readonly rolling: number;
  /** Speed of the wheels when its fastest motor turns without load, m/s. */
  readonly fastest: number;
  /** Its own inertia, kg·m². */
  readonly #inertia: number;
  /** At the end of the substep: speed = base + lift·throttle. */
  base = 0;
  lift = 0;
  #next = 0;

  constructor(feeders: readonly Feeder[], branch: Branch) {
    this.feeders = feeders;
    this.branch = branch;
    const motors = feeders.map(({ motor }) => motor);
    this.power = motors.reduce((sum, m) => sum + m.part.count * m.law.stallTorque * m.law.noLoadSpeed, 0);
    this.rolling = branch.rolling();
    this.#inertia = (leastInertia * branch.rollingMass()) / this.rolling ** 2;
    this.fastest =
      Math.max(...feeders.map(({ motor, gears }) => motor.law.noLoadSpeed / gears.ratio)) / this.rolling;
  }

  begin(k: Kinematics, h: number): void {
    this.branch.begin(k, h);
  }

  rise(h: number): void {
    const { branch } = this;
    branch.rise(h);
    const own = this.#inertia / h;
    let [fall, steady, throttled] = [0, 0, 0];
    for (const feeder of this.feeders) {
      feeder.rise(h);
      fall += feeder.falls;
      steady += feeder.steady;
      throttled += feeder.throttled;
    }
    const whole = branch.slope + own + fall;
    this.base = (own * this.speed + steady - branch.offset) / whole;
    this.lift = throttled / whole;
  }

  turn(throttle: number, h: number): void {
    this.#next = this.base + this.lift * throttle;
    this.branch.turn(this.#next, h);
    for (const feeder of this.feeders) feeder.turn(this.#next, throttle);
  }

  settle(one: boolean, h: number): boolean {
    let fits = true;
    for (const feeder of this.feeders) {
      if (!feeder.settle(h)) fits = false;
      if (!fits && one) return false;
    }
    return this.branch.settle(one) && fits;
  }

  /** Work of its motors in this substep, J. */
  work(h: number): number {
    let work = 0;
    for (const feeder of this.feeders) work += feeder.work(h);
    return work;
  }

  /** Moves everything on; returns what is lost, J. */
  finish(h: number): number {
    let lost = this.branch.finish(h);
    for (const feeder of this.feeders) lost += feeder.finish(h, 0.5 * (this.speed + this.#next));
    this.speed = this.#next;
    return lost;
  }

  /** Energy of its rotors and shafts, J. */
  get kinetic(): number {
    const own = 0.5 * this.#inertia * this.speed ** 2;
    return this.feeders.reduce((sum, feeder) => sum + feeder.kinetic, own + this.branch.kinetic());
  }
}
