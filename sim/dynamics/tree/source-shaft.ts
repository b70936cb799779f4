import type { Kinematics } from '../../mechanism/kinematics.ts';
import type { Branch } from './branch.ts';
import type { Motor } from './motor.ts';

/** A rotor without inertia gets this much over that of the wheels behind it. */
const leastInertia = 1e-6;

/** A shaft with one motor or several on it, and everything that it turns. */
export class SourceShaft {
  readonly motors: readonly Motor[];
  readonly branch: Branch;
  /** Speed in the world, rad/s. */
  speed = 0;
  /** Weight of its motors in the mean speed that the regulator reads: their power. */
  readonly power: number;
  /** Speed when every wheel rolls at 1 m/s, rad/m. */
  readonly rolling: number;
  /** Full voltage speed of the motors over `rolling`, m/s. */
  readonly fastest: number;
  /** At the end of the substep: speed = base + lift·throttle. */
  base = 0;
  lift = 0;
  /** kg·m². */
  readonly inertia: number;
  #next = 0;

  constructor(motors: readonly Motor[], branch: Branch) {
    this.motors = motors;
    this.branch = branch;
    this.inertia = motors.reduce((sum, m) => sum + m.inertia, 0);
    this.power = motors.reduce((sum, m) => sum + m.part.count * m.law.stallTorque * m.law.noLoadSpeed, 0);
    this.rolling = branch.rolling();
    this.fastest = Math.max(...motors.map((m) => m.law.noLoadSpeed)) / this.rolling;
  }

  begin(k: Kinematics, h: number): void {
    this.branch.begin(k, h);
  }

  rise(h: number): void {
    const { branch } = this;
    branch.rise(h);
    const rotor = Math.max(this.inertia, leastInertia * h * branch.slope) / h;
    let [fall, steady, throttled] = [0, 0, 0];
    for (const motor of this.motors) {
      fall += motor.falls;
      steady += motor.steady;
      throttled += motor.throttled;
    }
    const whole = branch.slope + rotor + fall;
    this.base = (rotor * this.speed + steady - branch.offset) / whole;
    this.lift = throttled / whole;
  }

  turn(throttle: number, h: number): void {
    this.#next = this.base + this.lift * throttle;
    this.branch.turn(this.#next, h);
    for (const motor of this.motors) motor.turn(this.#next, throttle);
  }

  settle(one: boolean): boolean {
    let fits = true;
    for (const motor of this.motors) {
      if (!motor.settle()) fits = false;
      if (!fits && one) return false;
    }
    return this.branch.settle(one) && fits;
  }

  /** Work of its motors in this substep, J. */
  work(h: number): number {
    const back = 0.5 * (this.#next - this.speed);
    let work = 0;
    for (const motor of this.motors) work += h * motor.torque * (motor.speed - back);
    return work;
  }

  finish(h: number): number {
    for (const motor of this.motors) motor.finish();
    this.speed = this.#next;
    return this.branch.finish(h);
  }

  /** Energy of its rotors, J. */
  get kinetic(): number {
    return 0.5 * this.inertia * this.speed ** 2;
  }
}
