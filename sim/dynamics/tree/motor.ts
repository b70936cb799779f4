import type { DrivePart, Supply } from '../../driveline/driveline.ts';
import type { MotorLaw } from '../../driveline/part.ts';
import type { Kinematics } from '../../mechanism/kinematics.ts';

/**
 * The motors of a part at work, all of them together. The torque is throttle·stall torque·U/U₀ − slope·speed, within
 * what the current limits allow: T = stall·(d·U/U₀ − n/n₀). Source: linear direct-current motor, any text on electric
 * drives. With the throttle closed it brakes, as a motor with its terminals joined does. An engine gives
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
  #spin = 0;
  #volts = 1;

  constructor(part: DrivePart, law: MotorLaw, across: number, most: number) {
    this.part = part;
    this.law = law;
    this.across = across;
    this.most = most;
    this.inertia = part.count * law.inertia;
    this.#perAmpere =
      law.stallCurrent === undefined
        ? Number.NaN
        : law.stallTorque / Math.max(law.stallCurrent - (law.noLoadCurrent ?? 0), 1e-12);
  }

  /** Prepares a substep. `volts`: voltage over that of the figures; `throttle` as it was last. */
  begin(k: Kinematics, volts: number, shaft: number, throttle: number): void {
    const { law, part } = this;
    this.#spin = k.spin[part.body] as number;
    this.#volts = volts;
    if (law.curve) {
      const speed = shaft + this.across * this.#spin;
      const at = curveAt(law.curve, Math.abs(speed));
      this.fall = part.count * Math.abs(throttle) * Math.max(0, -at.slope);
      this.perThrottle = part.count * at.torque;
      this.constant = this.fall * speed;
    } else {
      this.fall = (part.count * law.stallTorque) / law.noLoadSpeed;
      this.perThrottle = part.count * law.stallTorque * volts;
      this.constant = 0;
    }
  }

  /** Turns it with its shaft at `shaft` rad/s in the world. */
  turn(shaft: number, throttle: number): void {
    this.speed = shaft + this.across * this.#spin;
    const wanted = this.constant + this.perThrottle * throttle - this.fall * this.speed;
    this.torque = this.capped === 0 ? wanted : this.capped * this.most;
    this.#wanted = wanted;
  }
  #wanted = 0;

  settle(): boolean {
    const at = this.#wanted > this.most ? 1 : this.#wanted < -this.most ? -1 : 0;
    if (at === this.capped) return true;
    this.capped = at;
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
    const each = this.torque / part.count;
    const idle = law.noLoadCurrent ?? 0;
    const still = Math.abs(speed) < 1e-6 * law.noLoadSpeed;
    this.current = Math.abs(each / this.#perAmpere + Math.sign(still ? each : speed) * idle);
    this.duty = (each / law.stallTorque + speed / law.noLoadSpeed) / Math.max(this.#volts, 1e-12);
  }

  /** Current that all of them draw from the supply, A; 0 where it is not known. */
  get draw(): number {
    if (this.law.stallCurrent === undefined) return 0;
    const each = this.torque / this.part.count;
    const sign = Math.sign(each) === Math.sign(this.duty) || each === 0 ? 1 : -1;
    return sign * this.part.count * this.current * Math.abs(this.duty);
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
