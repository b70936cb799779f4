import type { DrivePart, Supply } from '../../driveline/driveline.ts';
import type { MotorLaw } from '../../driveline/part.ts';
import type { Kinematics } from '../../mechanism/kinematics.ts';
import { mostChanges } from './branch.ts';

/** Speed over that without load below which idle friction grows with it instead of being dry: it then stands. */
const standing = 1e-5;

/**
 * The motors of a part at work, all of them together: T = c·(I − I₀), I = (d·U − k·ω)/R at the share d of the voltage, within
 * what the current limits allow, the idle torque c·I₀ against the motion. Source: linear direct-current motor, any text on
 * electric drives. With the throttle closed it brakes, as a motor with its terminals joined does. An engine gives
 * throttle·curve(speed); it does not brake.
 */
export class Motor {
  readonly part: DrivePart;
  readonly law: MotorLaw;
  /** Speed against its housing for one of the housing's spin; 0 where the shaft lies lengthwise. */
  readonly across: number;
  /** kg·m² of all rotors. */
  readonly inertia: number;
  /** Torque, N·m, speed against its housing, rad/s, and current of ONE motor, A, found last. */
  torque = 0;
  speed = 0;
  current = 0;
  /** Share of the voltage at its terminals, −1 to 1. */
  duty = 0;
  /** Whether a current limit holds it back: forward, backward, or not. */
  capped: -1 | 0 | 1 = 0;
  /** Torque without throttle at no speed, per throttle, and its fall per rad/s. */
  constant = 0;
  perThrottle = 0;
  fall = 0;
  /** Torque that current limits allow all of them, N·m. */
  readonly most: number;
  readonly #perAmpere: number;
  /** Current without load over that at standstill. */
  readonly #idle: number;
  /** Which way it turns: −1, +1, or 0 where it as good as stands. */
  #turns: -1 | 0 | 1 = 0;
  #spin = 0;
  #wanted = 0;
  #changes = 0;
  /** Idle torque, N·m. */
  #rub = 0;
  /** −1 where it gives current back. */
  #sign: 1 | -1 = 1;
  #volts = 1;

  constructor(part: DrivePart, law: MotorLaw, across: number, most: number) {
    this.part = part;
    this.law = law;
    this.across = across;
    this.most = most;
    this.inertia = part.count * law.inertia;
    const { stallCurrent, noLoadCurrent = 0 } = law;
    this.#idle =
      stallCurrent === undefined || noLoadCurrent >= stallCurrent ? 0 : noLoadCurrent / stallCurrent;
    this.#perAmpere =
      law.stallCurrent === undefined
        ? Number.NaN
        : law.stallTorque / Math.max(law.stallCurrent - (law.noLoadCurrent ?? 0), 1e-12);
  }

  /** Prepares a substep. `volts`: voltage over that of the figures; `throttle` as it was last. */
  begin(k: Kinematics, volts: number, shaft: number, throttle: number): void {
    const { law, part } = this;
    this.#changes = 0;
    this.#spin = k.spin[part.body] as number;
    this.#volts = volts;
    if (law.curve) {
      const speed = shaft + this.across * this.#spin;
      const at = curveAt(law.curve, Math.abs(speed));
      this.fall = part.count * Math.abs(throttle) * Math.max(0, -at.slope);
      this.perThrottle = part.count * at.torque;
      this.constant = this.fall * speed;
    } else {
      const stall = part.count * law.stallTorque;
      const idle = (stall * this.#idle) / (1 - this.#idle);
      const slow = standing * law.noLoadSpeed;
      const speed = shaft + this.across * this.#spin;
      this.#turns = idle === 0 || Math.abs(speed) <= slow ? 0 : speed > 0 ? 1 : -1;
      this.perThrottle = (stall * volts) / (1 - this.#idle);
      this.#rub = idle;
      this.#straight();
    }
  }

  /** Its line for the way it turns. */
  #straight(): void {
    const { law, part } = this;
    const slow = standing * law.noLoadSpeed;
    this.fall = (part.count * law.stallTorque) / law.noLoadSpeed + (this.#turns === 0 ? this.#rub / slow : 0);
    this.constant = -this.#turns * this.#rub;
  }

  /** Turns it with its shaft at `shaft` rad/s in the world. */
  turn(shaft: number, throttle: number): void {
    this.speed = shaft + this.across * this.#spin;
    const wanted = this.constant + this.perThrottle * throttle - this.fall * this.speed;
    this.torque = this.capped === 0 ? wanted : this.capped * this.most;
    this.#wanted = wanted;
  }

  settle(): boolean {
    if (this.#changes > mostChanges) return true;
    if (this.#rubs() && this.#caps()) return true;
    this.#changes++;
    return false;
  }

  #caps(): boolean {
    const at = this.#wanted > this.most ? 1 : this.#wanted < -this.most ? -1 : 0;
    if (at === this.capped) return true;
    this.capped = at;
    return false;
  }

  /** Whether its idle friction fits the way it turns; changed when it does not. */
  #rubs(): boolean {
    if (this.#rub === 0) return true;
    const slow = standing * this.law.noLoadSpeed;
    const way = Math.abs(this.speed) <= slow ? 0 : this.speed > 0 ? 1 : -1;
    if (this.#turns === 0 ? way === 0 : this.speed * this.#turns >= slow) return true;
    this.#turns = this.#turns === 0 ? way : 0;
    this.#straight();
    return false;
  }

  /** Constant part of its torque as a function of its shaft's speed in the world, and its fall, in its present state. */
  get steady(): number {
    return this.capped === 0 ? this.constant - this.fall * this.across * this.#spin : this.capped * this.most;
  }
  get throttled(): number {
    return this.capped === 0 ? this.perThrottle : 0;
  }
  get falls(): number {
    return this.capped === 0 ? this.fall : 0;
  }

  /** Current and duty for what was found. Idle current goes against the motion. */
  finish(): void {
    const { law, part, speed } = this;
    const slow = standing * law.noLoadSpeed;
    const friction = (this.#turns === 0 ? Math.max(-1, Math.min(1, speed / slow)) : this.#turns) * this.#rub;
    const air = (this.torque + friction) / part.count;
    this.current = Math.abs(air / this.#perAmpere);
    const share = (air / law.stallTorque) * (1 - this.#idle) + ((1 - this.#idle) * speed) / law.noLoadSpeed;
    this.duty = share / Math.max(this.#volts, 1e-12);
    this.#sign = air * share >= 0 ? 1 : -1;
  }

  /** Current that all of them draw from the supply, A; 0 where it is not known. */
  get draw(): number {
    if (this.law.stallCurrent === undefined) return 0;
    return this.#sign * this.part.count * this.current * Math.abs(this.duty);
  }
}

/** Voltage over that of a motor's figures, at `volts` of the supply. */
export const voltageShare = (law: MotorLaw, supply: Supply | undefined, volts: number): number =>
  supply === undefined ? 1 : volts / (law.voltage ?? supply.voltage);

/** Torque, N·m, and its slope on a curve of rising speeds: level below the first, within 1 % beyond the last down to nothing. */
function curveAt(curve: NonNullable<MotorLaw['curve']>, speed: number): { torque: number; slope: number } {
  const first = curve[0] as (typeof curve)[number];
  const last = curve.at(-1) as (typeof curve)[number];
  if (speed <= first.speed) return { torque: first.torque, slope: 0 };
  for (let i = 1; i < curve.length; i++) {
    const [a, b] = [curve[i - 1] as typeof first, curve[i] as typeof first];
    if (speed > b.speed) continue;
    const slope = (b.torque - a.torque) / (b.speed - a.speed);
    return { torque: a.torque + slope * (speed - a.speed), slope };
  }
  const slope = -last.torque / (0.01 * last.speed);
  return { torque: Math.max(0, last.torque + slope * (speed - last.speed)), slope };
}
