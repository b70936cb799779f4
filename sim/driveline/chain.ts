import type { Mechanism } from '../mechanism/mechanism.ts';
import { JointAngles, type Placement } from './angles.ts';
import type { Driveline, DrivePart } from './driveline.ts';
import { type Circuit, circuitOf, voltageUnder } from './electric.ts';
import { standstillTorque } from './motor.ts';
import type { Rating } from './rating.ts';
import { type Inputs, Ripples } from './ripples.ts';
import { inputSharesOf } from './shared-shafts.ts';
import { type Turns, turnsOf } from './speeds.ts';

/** The chain of a vehicle's drive line; undefined when it has none. Build it once, solve it for each station. */
export const chainOf = (mechanism: Mechanism): DriveChain | undefined =>
  mechanism.driveline && new DriveChain(mechanism, mechanism.driveline);

/** What a motor, a battery or a joint is held against: N·m, A or rad of ONE, and how that is known. */
export interface Limit {
  readonly value: number;
  readonly how: 'given' | 'measured' | 'estimate' | 'typical';
  readonly spread: number;
}

/**
 * Torques in all parts of a drive line that follow from torques on the axle lines, in one pass from the wheels to the
 * sources. Power that flows to the wheels: T_in = T_out/(i·η); power that flows back: T_in = η'·T_out/i, nothing where
 * the part locks itself: it then holds. Parts that several motors turn take torque from each in proportion to its line.
 * All arrays are per part in the order of the drive line, and written over by `solve`. N·m, forward positive, all equal
 * ones of a part together. Source: power balance of gear stages, texts on drivelines.
 */
export class DriveChain {
  readonly driveline: Driveline;
  /** Torque at the output and at the input of each part, N·m. */
  readonly out: Float64Array;
  readonly into: Float64Array;
  /** Power that each part loses, W, at the target speed. */
  readonly loss: Float64Array;
  /** Angle of each joint, rad; 0 for other parts, NaN for a joint whose angle nothing says. */
  readonly angle: Float64Array;
  /**
   * Greatest size of the torque at the output of each part over a turn, N·m, all equal ones together: with the ripple of
   * the joints further out. What a joint's own angle does to it is in how its rating falls.
   */
  readonly peak: Float64Array;
  /** Current of ONE motor, A; NaN for other parts and where the figures for it are missing. */
  readonly current: Float64Array;
  /** Speed at the output of each part, rad/s at the target speed, backwards negative. */
  readonly speed: Float64Array;
  /** Speeds per metre of way. */
  readonly turns: Turns;
  /** Power that goes into the sources' shafts, and onto the wheels, W at the target speed. */
  sourcePower = 0;
  wheelPower = 0;
  /** Voltage (V), current (A) and power (W) of the battery; NaN where figures are missing. */
  voltage = Number.NaN;
  supplyCurrent = Number.NaN;
  supplyPower = Number.NaN;

  readonly #parts: readonly DrivePart[];
  readonly #lastPart: Int32Array;
  readonly #ratio: Float64Array;
  readonly #driving: Float64Array;
  readonly #back: Float64Array;
  readonly #inputs: Inputs;
  /** Differentials that let their outputs turn apart, joints, and sources. */
  readonly #splits: Int32Array;
  readonly #joints: Int32Array;
  readonly #motors: Int32Array;
  readonly #travel: number;
  readonly #angles: JointAngles;
  readonly #ripples: Ripples;
  readonly #circuits: readonly (Circuit | undefined)[];
  readonly #limits: readonly (Limit | undefined)[];

  constructor(mechanism: Mechanism, driveline: Driveline) {
    const { parts, lastPart, supply } = driveline;
    const n = parts.length;
    const row = () => new Float64Array(n);
    this.driveline = driveline;
    this.#parts = parts;
    this.#lastPart = Int32Array.from(lastPart);
    this.turns = turnsOf(driveline, mechanism.wheels);
    this.#travel = Math.abs(mechanism.drive.speed);
    [this.out, this.into, this.loss, this.speed, this.peak] = [row(), row(), row(), row(), row()];
    [this.angle, this.current] = [row(), row().fill(Number.NaN)];
    this.#ratio = Float64Array.from(parts, ({ law }) => law.ratio);
    this.#driving = Float64Array.from(parts, ({ law }) => law.driving);
    this.#back = Float64Array.from(parts, ({ law }) => law.backDriving);
    const shared = inputSharesOf(parts, supply);
    this.#inputs = {
      first: Int32Array.from({ length: n + 1 }, (_, p) =>
        parts.slice(0, p).reduce((sum, { inputs }) => sum + inputs.length, 0),
      ),
      from: Int32Array.from(parts.flatMap(({ inputs }) => inputs)),
      shares: Float64Array.from(shared.flat()),
    };
    const which = (fits: (part: DrivePart) => boolean) =>
      Int32Array.from(parts.flatMap((part, p) => (fits(part) ? [p] : [])));
    this.#splits = which(({ law }) => law.split !== undefined && law.split.mode !== 'locked');
    this.#joints = which(({ law }) => law.angled !== undefined);
    this.#motors = which(({ law }) => law.motor !== undefined);
    this.#angles = new JointAngles(parts);
    this.#ripples = new Ripples(driveline, this.#inputs);
    this.#circuits = parts.map(({ law }) => law.motor && circuitOf(law.motor, supply?.voltage));
    this.#limits = parts.map((part) => limitOf(part, driveline));
  }

  /**
   * Finds all torques, losses, angles and currents.
   * @param torques N·m per axle line, forward positive, all its wheels together; lines that nothing turns are left out
   * @param sense 1 when the vehicle goes forward, −1 backward: decides which way power flows
   * @param k where the bodies are, for the angles of joints; as drawn when left out
   */
  solve(torques: ArrayLike<number>, sense: 1 | -1, k?: Placement): void {
    const { out, into } = this;
    const inputs = this.#inputs;
    out.fill(0);
    this.wheelPower = 0;
    this.sourcePower = 0;
    for (let w = 0; w < this.#lastPart.length; w++) {
      const p = this.#lastPart[w] as number;
      if (p < 0) continue;
      const torque = torques[w] as number;
      out[p] = (out[p] as number) + torque;
      this.wheelPower += torque * sense * this.#travel * (this.turns.wheels[w] as number);
    }
    for (let p = out.length - 1; p >= 0; p--) {
      const o = out[p] as number;
      const ratio = this.#ratio[p] as number;
      const forward = o * sense >= 0;
      const t = forward
        ? o / (ratio * (this.#driving[p] as number))
        : (o * (this.#back[p] as number)) / ratio;
      into[p] = t;
      const speed = sense * this.#travel * (this.turns.out[p] as number);
      this.speed[p] = speed;
      const passed = Math.abs(o * speed);
      this.loss[p] = forward
        ? passed * (1 / (this.#driving[p] as number) - 1)
        : passed * (1 - (this.#back[p] as number));
      const first = inputs.first[p] as number;
      const end = inputs.first[p + 1] as number;
      if (first === end) this.sourcePower += o * speed;
      for (let i = first; i < end; i++) {
        const from = inputs.from[i] as number;
        out[from] = (out[from] as number) + t * (inputs.shares[i] as number);
      }
    }
    this.#splitLosses(torques, sense);
    this.#bend(k);
    this.#feed(sense);
  }

  /**
   * Where a differential's outputs turn at speeds of their own while torques don't follow its shares, the difference in
   * power stays in it; with shared torques, and behind locks, it is nothing.
   */
  #splitLosses(torques: ArrayLike<number>, sense: 1 | -1): void {
    const { parts } = this.driveline;
    const v = sense * this.#travel;
    for (let n = 0; n < this.#splits.length; n++) {
      const p = this.#splits[n] as number;
      const part = parts[p] as DrivePart;
      let left = (this.out[p] as number) * (this.speed[p] as number);
      for (let i = 0; i < part.outputs.length; i++) {
        const o = part.outputs[i] as number;
        left -= (this.into[o] as number) * v * (this.turns.into[o] as number);
      }
      for (let i = 0; i < part.wheels.length; i++) {
        const w = part.wheels[i] as number;
        left -= (torques[w] as number) * v * (this.turns.wheels[w] as number);
      }
      this.loss[p] = (this.loss[p] as number) + left;
    }
  }

  /** Angles of joints, and the ripple that they put on the torques. */
  #bend(k: Placement | undefined): void {
    for (let n = 0; n < this.#joints.length; n++) {
      const p = this.#joints[n] as number;
      this.angle[p] = this.#angles.at(p, k);
    }
    this.#ripples.solve(this.out, this.into, this.angle, this.peak);
  }

  /** Currents of the motors and what the battery makes of them. */
  #feed(sense: 1 | -1): void {
    let power = 0;
    for (let n = 0; n < this.#motors.length; n++) {
      const p = this.#motors[n] as number;
      const circuit = this.#circuits[p];
      const part = this.#parts[p] as DrivePart;
      if (circuit === undefined) {
        if (part.law.motor?.curve === undefined) power = Number.NaN;
        continue;
      }
      const torque = (sense * (this.out[p] as number)) / part.count;
      const amperes = torque / circuit.torquePerAmpere + circuit.idle;
      this.current[p] = amperes;
      const volts = circuit.resistance * amperes + circuit.back * Math.abs(this.speed[p] as number);
      // a controller chops; what a braking motor gives back is not counted
      power += part.count * Math.max(0, volts * amperes);
    }
    this.supplyPower = power;
    this.voltage = this.voltageUnder(power);
    this.supplyCurrent = power / this.voltage;
  }

  /** Voltage of the battery under a load of this power (W), V; NaN without a battery. */
  voltageUnder(power: number): number {
    const { supply } = this.driveline;
    return supply === undefined ? Number.NaN : voltageUnder(power, supply.voltage, supply.resistance);
  }

  /** What ONE part may carry at its output in the pose solved last, N·m; undefined where nobody knows. */
  limit(p: number): Limit | undefined {
    const limit = this.#limits[p];
    const angled = this.#parts[p]?.law.angled;
    if (limit === undefined || angled === undefined) return limit;
    const angle = this.angle[p] as number;
    return Number.isNaN(angle) ? undefined : { ...limit, value: limit.value * angled.derate(angle) };
  }

  /** What ONE part carries at its worst in a turn, N·m; a size. */
  carries(p: number): number {
    return (this.peak[p] as number) / (this.#parts[p] as DrivePart).count;
  }

  /**
   * Share of its rating that ONE part carries in the pose solved last, with its angle; a motor's of the torque that it
   * has at standstill. NaN where the rating, or a joint's angle, is not known.
   */
  partUse(p: number): number {
    const limit = this.#limits[p];
    if (limit === undefined) return Number.NaN;
    const angled = this.#parts[p]?.law.angled;
    const share = angled === undefined ? 1 : angled.derate(this.angle[p] as number);
    return this.carries(p) / (limit.value * share);
  }

  /** Share of the angle that a joint can take in the pose solved last; NaN where either is not known. */
  angleUse(p: number): number {
    const most = this.#parts[p]?.law.angled?.mostAngle;
    return most === undefined ? Number.NaN : (this.angle[p] as number) / most;
  }
}

/** The rating of a part; for a source without one, the torque of ONE at standstill. */
function limitOf(part: DrivePart, { supply }: Driveline): Limit | undefined {
  if (part.law.motor !== undefined)
    return { value: standstillTorque(part, supply) / part.count, how: 'given', spread: 0 };
  const rating: Rating | undefined = part.rating;
  return rating && { value: rating.torque, how: rating.how, spread: rating.spread };
}
