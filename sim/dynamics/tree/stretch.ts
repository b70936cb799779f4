import type { Kinematics } from '../../mechanism/kinematics.ts';
import type { Branch } from './branch.ts';
import type { Coupling } from './coupling.ts';
import type { Gears } from './gears.ts';

/** How much harder to move than what hangs on it a row of gears is that holds itself. */
const held = 1e6;

/** Least torque in over torque out, times the ratio, that a slope keeps, so that nothing is divided by zero. */
const leastShare = 1e-12;

/** A row of gears with what its last shaft turns. */
export class Stretch implements Branch {
  readonly gears: Gears;
  readonly coupling: Coupling;
  readonly branches: readonly Branch[];
  readonly #shares: readonly number[];
  readonly #ahead: Float64Array;
  slope = 0;
  offset = 0;
  torque = 0;
  speed = 0;
  before = 0;
  /** At its last shaft: torque, N·m, speed, rad/s, and that of the substep before. */
  #torqueOut = 0;
  #speedOut = 0;
  #beforeOut = 0;

  /** `shares`: how its output speed follows from those of its branches; `ahead`: spins of all bodies a substep on. */
  constructor(
    gears: Gears,
    coupling: Coupling,
    branches: readonly Branch[],
    shares: readonly number[],
    ahead: Float64Array,
  ) {
    this.gears = gears;
    this.coupling = coupling;
    this.branches = branches;
    this.#shares = shares;
    this.#ahead = ahead;
  }

  begin(k: Kinematics, h: number): void {
    this.gears.begin(k, this.#ahead);
    this.before = this.speed;
    this.#beforeOut = this.#speedOut;
    this.coupling.begin();
    for (const branch of this.branches) branch.begin(k, h);
  }

  rise(h: number): void {
    const { gears, coupling } = this;
    for (const branch of this.branches) branch.rise(h);
    coupling.rise(h);
    const slope = coupling.slope / gears.ratio;
    if (gears.flow === 'held') {
      let most = coupling.slope;
      for (const branch of this.branches) most = Math.max(most, branch.slope);
      this.slope = (held * most) / gears.ratio ** 2;
      this.offset = -this.slope * gears.still;
    } else {
      this.slope = slope * Math.max(gears.share, leastShare / gears.ratio);
      this.offset = (coupling.offset - slope * gears.shift) * gears.share;
    }
  }

  turn(speed: number, h: number): void {
    const { gears, coupling } = this;
    this.speed = speed;
    this.torque = this.slope * speed + this.offset;
    this.#speedOut = (speed - gears.shift) / gears.ratio;
    this.#torqueOut = coupling.slope * this.#speedOut + coupling.offset;
    coupling.turn(this.#speedOut, this.#torqueOut, h);
  }

  settle(one: boolean): boolean {
    let fits = this.gears.settle(this.torque, this.#torqueOut, this.speed);
    if (!fits && one) return false;
    if (!this.coupling.settle(this.#speedOut, this.#torqueOut)) fits = false;
    if (!fits && one) return false;
    for (const branch of this.branches) {
      if (!branch.settle(one)) fits = false;
      if (!fits && one) return false;
    }
    return fits;
  }

  finish(h: number): number {
    const middle = 0.5 * (this.#beforeOut + this.#speedOut);
    let lost =
      h * this.gears.lose(this.torque, this.#torqueOut, middle) +
      h * this.coupling.lose(middle, this.#torqueOut);
    for (const branch of this.branches) lost += branch.finish(h);
    return lost;
  }

  rolling(): number {
    let speed = 0;
    for (let i = 0; i < this.branches.length; i++)
      speed += (this.#shares[i] as number) * (this.branches[i] as Branch).rolling();
    return this.gears.ratio * speed;
  }

  rollingMass(): number {
    return this.branches.reduce((sum, branch) => sum + branch.rollingMass(), 0);
  }

  kinetic(): number {
    let sum = this.coupling.kinetic();
    for (const branch of this.branches) sum += branch.kinetic();
    return sum;
  }
}
