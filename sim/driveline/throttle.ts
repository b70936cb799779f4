import type { Driveline, DrivePart, Supply } from './driveline.ts';
import { type Circuit, circuitOf } from './electric.ts';

/** A source as full throttle sees it. */
interface Drawn {
  readonly part: DrivePart;
  readonly circuit: Circuit | undefined;
}

/** What the sources of a drive line give at full throttle; arrays per source in the order of `sources`. */
export interface Pulling {
  /** N·m of ONE and A of ONE (NaN where not known). */
  readonly torque: Float64Array;
  readonly current: Float64Array;
  /** Battery: V and A; NaN where not known. */
  readonly voltage: number;
  readonly supplyCurrent: number;
}

/**
 * Sources of a drive line at full throttle, at any speed: motors on one battery that sags under all of them, within the
 * limits of motor, controller and battery; engines by their curves. A controller passes power on without loss, so that
 * the battery's current is the motors' power over its voltage. Source: Ohm and the linear direct-current motor.
 */
export class Throttle {
  /** Indices of the sources in the drive line. */
  readonly sources: readonly number[];
  readonly #drawn: readonly Drawn[];
  readonly #supply: Supply | undefined;
  readonly #torque: Float64Array;
  readonly #current: Float64Array;

  constructor({ parts, supply }: Driveline) {
    this.sources = parts.flatMap((part, p) => (part.law.motor === undefined ? [] : [p]));
    this.#supply = supply;
    this.#drawn = this.sources.map((p) => {
      const part = parts[p] as DrivePart;
      return { part, circuit: part.law.motor && circuitOf(part.law.motor, supply?.voltage) };
    });
    this.#torque = new Float64Array(this.sources.length);
    this.#current = new Float64Array(this.sources.length);
  }

  /** What they give at these speeds (rad/s, per source, sizes). The arrays are written over by the next call. */
  full(speeds: ArrayLike<number>): Pulling {
    const limit = this.#supply?.currentLimit ?? Number.POSITIVE_INFINITY;
    let found = this.#settle(1, speeds);
    if (found.supplyCurrent > limit) {
      let [low, high] = [0, 1];
      for (let n = 0; n < 50; n++) {
        const share = (low + high) / 2;
        found = this.#settle(share, speeds);
        if (found.supplyCurrent > limit) high = share;
        else low = share;
      }
      found = this.#settle(low, speeds);
    }
    return { torque: this.#torque, current: this.#current, ...found };
  }

  /** At a share of the throttle: the voltage at which battery and motors agree, the highest if there are two. */
  #settle(share: number, speeds: ArrayLike<number>): { voltage: number; supplyCurrent: number } {
    const open = this.#supply?.voltage ?? Number.NaN;
    const resistance = this.#supply?.resistance ?? 0;
    const over = (volts: number) => volts + resistance * this.#draw(volts, share, speeds) - open;
    let voltage = open;
    if (resistance > 0) {
      const step = open / 64;
      let low = open - step;
      while (low > 0 && over(low) > 0) low -= step;
      let high = low + step;
      for (let n = 0; n < 60; n++) {
        const middle = (low + high) / 2;
        if (over(middle) > 0) high = middle;
        else low = middle;
      }
      voltage = high;
    }
    const supplyCurrent = this.#draw(voltage, share, speeds);
    return { voltage, supplyCurrent };
  }

  /** Fills torques and currents at a battery voltage; returns the battery's current, A. */
  #draw(volts: number, share: number, speeds: ArrayLike<number>): number {
    let power = 0;
    for (let i = 0; i < this.#drawn.length; i++) {
      const { part, circuit } = this.#drawn[i] as Drawn;
      const speed = speeds[i] as number;
      if (circuit === undefined) {
        this.#torque[i] = share * withoutCircuit(part, volts, speed);
        this.#current[i] = Number.NaN;
        if (part.law.motor?.curve === undefined) power = Number.NaN;
        continue;
      }
      const back = circuit.back * speed;
      const most = part.law.motor?.currentLimit ?? Number.POSITIVE_INFINITY;
      // without a battery each motor has the voltage of its figures
      const own = Number.isNaN(volts) ? (part.law.motor?.voltage ?? 0) : volts;
      const amperes = Math.max(0, Math.min((share * own - back) / circuit.resistance, most));
      this.#current[i] = amperes;
      this.#torque[i] = Math.max(0, circuit.torquePerAmpere * (amperes - circuit.idle));
      power += part.count * (circuit.resistance * amperes + back) * amperes;
    }
    return power / volts;
  }
}

/** Torque of ONE source whose circuit is not known: the straight line at the supply's voltage, or an engine's curve. */
function withoutCircuit({ law }: DrivePart, volts: number, speed: number): number {
  const { motor } = law;
  if (motor === undefined) return 0;
  if (motor.curve !== undefined) return onCurve(motor.curve, speed);
  const share = motor.voltage === undefined || !Number.isFinite(volts) ? 1 : volts / motor.voltage;
  return motor.stallTorque * Math.max(0, share - speed / motor.noLoadSpeed);
}

/** Torque on a curve: straight between its rows; that of the first row below it, where a clutch slips; none beyond. */
export function onCurve(
  curve: readonly { readonly speed: number; readonly torque: number }[],
  speed: number,
): number {
  const first = curve[0];
  if (first === undefined) return 0;
  if (speed <= first.speed) return first.torque;
  for (let i = 1; i < curve.length; i++) {
    const [a, b] = [curve[i - 1] as typeof first, curve[i] as typeof first];
    if (speed <= b.speed) return a.torque + ((b.torque - a.torque) * (speed - a.speed)) / (b.speed - a.speed);
  }
  return 0;
}
