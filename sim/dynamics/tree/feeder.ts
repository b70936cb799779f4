import type { Kinematics } from '../../mechanism/kinematics.ts';
import type { Gears } from './gears.ts';
import type { Motor } from './motor.ts';

/** How much harder to move than its rotor a row of gears is that holds itself. */
const held = 1e6;

/**
 * The motors of a part with the gears between them and the shaft that they feed together with others. The torque that it
 * gives there is steady + throttled·throttle − falls·(speed of the shaft at the end of the substep).
 */
export class Feeder {
  readonly motor: Motor;
  readonly gears: Gears;
  steady = 0;
  throttled = 0;
  falls = 0;
  /** Speed of the rotors in the world, rad/s, and what it will be. */
  #speed = 0;
  #next = 0;
  #torque = 0;

  constructor(motor: Motor, gears: Gears) {
    this.motor = motor;
    this.gears = gears;
  }

  begin(k: Kinematics, ahead: Float64Array, volts: number, throttle: number): void {
    this.gears.begin(k, ahead);
    this.motor.begin(k, volts, this.#speed, throttle);
  }

  rise(h: number): void {
    const { motor, gears } = this;
    const rotor = motor.inertia / h;
    const falls = motor.falls + rotor;
    if (gears.flow === 'held') {
      // what it takes to hold the rotor, seen from the shaft
      this.falls = held * Math.max(falls, motor.fall) * gears.ratio ** 2;
      this.steady = (this.falls * (gears.still - gears.shift)) / gears.ratio;
      this.throttled = 0;
      return;
    }
    const gain = 1 / Math.max(gears.share, 1e-12);
    this.falls = gain * falls * gears.ratio;
    this.steady = gain * (motor.steady + rotor * this.#speed - falls * gears.shift);
    this.throttled = gain * motor.throttled;
  }

  /** Turns it with the shaft that it feeds. */
  turn(shaft: number, throttle: number): void {
    this.#torque = this.steady + this.throttled * throttle - this.falls * shaft;
    this.#next = this.gears.ratio * shaft + this.gears.shift;
    this.motor.turn(this.#next, throttle);
  }

  settle(h: number): boolean {
    const { motor, gears } = this;
    const into = motor.torque - (motor.inertia / h) * (this.#next - this.#speed);
    const own = motor.settle();
    return gears.settle(into, this.#torque, this.#next) && own;
  }

  /** Work of its motors in this substep, J. */
  work(h: number): number {
    return h * this.motor.torque * (this.motor.speed - 0.5 * (this.#next - this.#speed));
  }

  /** Takes the new speed over; returns what its gears lose, J. `shaft`: mean speed of the shaft, rad/s. */
  finish(h: number, shaft: number): number {
    const { motor, gears } = this;
    const into = motor.torque - (motor.inertia / h) * (this.#next - this.#speed);
    motor.finish();
    this.#speed = this.#next;
    return h * gears.lose(into, this.#torque, shaft);
  }

  /** Energy of its rotors, J. */
  get kinetic(): number {
    return 0.5 * this.motor.inertia * this.#speed ** 2;
  }
}
