import type { WorkingWheel } from '../working-wheel.ts';
import { type Branch, mostChanges } from './branch.ts';

/** Roll rate over √(g/r) below which rolling resistance grows with it instead of being dry: it then stands, but for 10⁻⁵ of a fall. */
const standing = 1e-5;

/**
 * An axle line at the end of the tree. What it turns against is the body that holds the reaction, and that body answers to
 * the torque one substep later. So the torque is worked out with the answer expected (`give`, rad/s² per N·m) to its
 * change: without that a wheel that turns heavily and a light housing throw each other about.
 * With an error d of `give` the error of a substep is passed on by z² = d/(1/J + give)·(2z − 1): it dies out for every
 * `give` that is not more than a third of 1/J + give too small.
 */
export class WheelEnd implements Branch {
  readonly working: WorkingWheel;
  slope = 0;
  offset = 0;
  torque = 0;
  speed = 0;
  before = 0;
  readonly #give: number;
  readonly #slow: number;
  /** Torque of the substep before, N·m. */
  #last = 0;
  #resistance = 0;
  /** +1, −1: rolls that way; 0: as good as stands. */
  #roll: -1 | 0 | 1 = 0;
  /** End-of-step roll rate without torque, and its rise per N·m. */
  #free = 0;
  #gain = 0;
  #rate = 0;
  #changes = 0;

  constructor(working: WorkingWheel, give: number, gravity: number) {
    this.working = working;
    this.#give = give;
    this.#slow = standing * Math.sqrt(gravity / working.wheel.radius);
  }

  begin(): void {
    const { wheel, line, rate } = this.working;
    this.#resistance = wheel.tyre.rolling * line.normal * wheel.radius;
    this.#changes = 0;
    this.#last = this.torque;
    this.before = this.speed;
    this.#roll = this.#resistance === 0 || Math.abs(rate) <= this.#slow ? 0 : rate > 0 ? 1 : -1;
  }

  rise(h: number): void {
    const { wheel, line, rate } = this.working;
    const { inertia } = wheel;
    const stiff = this.#roll === 0 ? this.#resistance / this.#slow : 0;
    const whole = inertia + h * stiff;
    this.#free = (inertia * rate - h * (line.drag + this.#roll * this.#resistance)) / whole;
    this.#gain = h / whole;
    const gain = this.#gain + h * this.#give;
    this.slope = 1 / gain;
    this.offset = (h * this.#give * this.#last - this.#free) / gain;
  }

  turn(speed: number): void {
    this.speed = speed;
    this.torque = this.slope * speed + this.offset;
    this.#rate = this.#free + this.#gain * this.torque;
  }

  settle(): boolean {
    if (this.#resistance === 0 || this.#changes > mostChanges) return true;
    const rate = this.#rate;
    const fits = this.#roll === 0 ? Math.abs(rate) <= this.#slow : rate * this.#roll >= this.#slow;
    if (!fits) this.#changes++;
    if (!fits) this.#roll = this.#roll !== 0 || Math.abs(rate) <= this.#slow ? 0 : rate > 0 ? 1 : -1;
    return fits;
  }

  finish(h: number): number {
    const w = this.working;
    const middle = 0.5 * (w.rate + this.#rate);
    const held = (this.#roll === 0 ? this.#rate / this.#slow : this.#roll) * this.#resistance;
    w.rate = this.#rate;
    w.roll += h * w.rate;
    w.torque = this.torque;
    return h * held * middle;
  }

  kinetic(): number {
    return 0;
  }

  rolling(): number {
    return 1 / this.working.wheel.radius;
  }

  rollingMass(): number {
    const { inertia, radius } = this.working.wheel;
    return inertia / radius ** 2;
  }
}
