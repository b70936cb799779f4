import type { Driveline } from '../../driveline/driveline.ts';
import { type Kinematics, type Loads, twist } from '../../mechanism/kinematics.ts';
import type { Mechanism } from '../../mechanism/mechanism.ts';
import type { WorkingWheel } from '../working-wheel.ts';
import { type Built, buildTree } from './build.ts';
import { type Motor, voltageShare } from './motor.ts';
import type { SourceShaft } from './source-shaft.ts';

/** Looks for states that fit: all that do not are changed at once, later one at a time, then it goes on as it is. */
const together = 8;
const most = 300;
/** Time in which the voltage at the motors follows the current, s: capacitors of a controller. Common practice, no source. */
const sagTime = 0.002;

/**
 * The drive line at work: motors, one command for all of them, gears, differentials and clutches, down to the wheels.
 * Everything in it moves on together, at the end of the substep, so that no stiffness in it is too high. Nothing is
 * allocated on the way.
 */
export class DriveTree {
  readonly built: Built;
  readonly motors: readonly Motor[];
  /** Command of the regulator, −1 to 1 of the full voltage (or of the torque curve). */
  throttle = 0;
  /** Voltage of the supply under load, V. */
  volts: number;
  /** Work of the motors and energy lost in the last substep, J. */
  work = 0;
  lost = 0;
  readonly #line: Driveline;
  readonly #shafts: readonly SourceShaft[];
  readonly #ahead: Float64Array;
  readonly #spins: Float64Array;
  #begun = false;

  constructor(mechanism: Mechanism, line: Driveline, wheels: readonly WorkingWheel[]) {
    this.#line = line;
    this.#ahead = new Float64Array(mechanism.bodies.length);
    this.#spins = new Float64Array(mechanism.bodies.length);
    this.built = buildTree(mechanism, line, wheels, this.#ahead);
    this.#shafts = this.built.shafts;
    this.motors = this.#shafts.flatMap(({ feeders }) => feeders.map(({ motor }) => motor));
    this.volts = line.supply?.voltage ?? 0;
  }

  /**
   * Moves shafts and wheels on by h seconds towards a speed of the vehicle, m/s: the throttle is full when the wheels, as
   * the motors see them, are 1/`gain` m/s too slow. Reactions go to the bodies that hold them.
   */
  step(h: number, speed: number, gain: number, k: Kinematics, loads: Loads): void {
    this.#begin(h, k);
    for (let pass = 0; pass < most; pass++) {
      for (const shaft of this.#shafts) shaft.rise(h);
      this.throttle = this.#command(speed, gain);
      for (const shaft of this.#shafts) shaft.turn(this.throttle, h);
      let fits = true;
      for (const shaft of this.#shafts) {
        if (!shaft.settle(pass >= together, h)) fits = false;
        if (!fits && pass >= together) break;
      }
      if (fits) break;
    }
    this.#finish(h, loads);
  }

  #begin(h: number, k: Kinematics): void {
    const spins = this.#spins;
    for (let b = 0; b < spins.length; b++) {
      const spin = k.spin[b] as number;
      this.#ahead[b] = this.#begun ? 2 * spin - (spins[b] as number) : spin;
      spins[b] = spin;
    }
    this.#begun = true;
    for (const shaft of this.#shafts) {
      shaft.begin(k, h);
      for (const feeder of shaft.feeders) {
        const share = voltageShare(feeder.motor.law, this.#line.supply, this.volts);
        feeder.begin(k, this.#ahead, share, this.throttle);
      }
    }
  }

  /** Throttle for a target speed: what the line needs for it without load, and the more the slower it is. */
  #command(speed: number, gain: number): number {
    let [power, fast, base, lift] = [0, 0, 0, 0];
    for (const shaft of this.#shafts) {
      power += shaft.power;
      fast += shaft.power * shaft.fastest;
      base += (shaft.power * shaft.base) / shaft.rolling;
      lift += (shaft.power * shaft.lift) / shaft.rolling;
    }
    if (power === 0) return 0;
    const wanted = (speed * power) / fast + (gain * (speed * power - base)) / power;
    const throttle = wanted / (1 + (gain * lift) / power);
    return speed < 0 ? Math.max(-1, Math.min(0, throttle)) : Math.max(0, Math.min(1, throttle));
  }

  #finish(h: number, loads: Loads): void {
    this.work = 0;
    this.lost = 0;
    let amperes = 0;
    for (const shaft of this.#shafts) {
      this.work += shaft.work(h);
      this.lost += shaft.finish(h);
      for (const { motor } of shaft.feeders) amperes += motor.draw;
    }
    for (const { working } of this.built.ends) {
      const { reactions } = working.wheel;
      for (let i = 0; i < reactions.length; i++) {
        const { body, share } = reactions[i] as (typeof reactions)[number];
        twist(loads, body, share * working.torque);
      }
    }
    const { supply } = this.#line;
    if (supply === undefined) return;
    const rest = Math.max(0, supply.voltage - supply.resistance * amperes);
    this.volts += Math.min(1, h / sagTime) * (rest - this.volts);
  }

  /** Energy of all rotors, and of shafts that have an inertia of their own, J. */
  kinetic(): number {
    return this.#shafts.reduce((sum, shaft) => sum + shaft.kinetic, 0);
  }
}
