import type { Matrix } from 'ml-matrix';
import type { Driveline, DrivePart } from '../../driveline/driveline.ts';
import type { MotorLaw } from '../../driveline/part.ts';
import type { Mechanism, Wheel } from '../../mechanism/mechanism.ts';
import { turningMobility } from '../mobility.ts';
import type { WorkingWheel } from '../working-wheel.ts';
import type { Branch } from './branch.ts';
import { Clutch, type Coupling, Differential, Lock } from './coupling.ts';
import { Feeder } from './feeder.ts';
import { type Geared, Gears } from './gears.ts';
import { Motor } from './motor.ts';
import { SourceShaft } from './source-shaft.ts';
import { Stretch } from './stretch.ts';
import { WheelEnd } from './wheel-end.ts';

/** The drive line put together for a run. */
export interface Built {
  readonly shafts: readonly SourceShaft[];
  readonly ends: readonly WheelEnd[];
  readonly geared: readonly Geared[];
  readonly slipping: readonly { readonly part: DrivePart; readonly coupling: Coupling }[];
}

/** How much readier to turn than in the drawing bodies are taken to be: linkages stand otherwise in other poses. */
const elsewhere = 1.25;

/**
 * Share of its task that a rod fulfils at once: the rigid-body solver stops short of the whole (a housing of 0.1 g·m² on a
 * rod gave way by a tenth of what it would without). On the safe side; see WheelEnd.
 */
const rodsHold = 0.7;

/** Puts a drive line together. `ahead`: spins of all bodies, a substep on, rad/s; filled from substep to substep. */
export function buildTree(
  mechanism: Mechanism,
  driveline: Driveline,
  wheels: readonly WorkingWheel[],
  ahead: Float64Array,
): Built {
  const builder = new Builder(mechanism, driveline, wheels, ahead);
  return { shafts: builder.shafts(), ends: builder.ends, geared: builder.geared, slipping: builder.slipping };
}

class Builder {
  readonly ends: WheelEnd[] = [];
  readonly geared: Geared[] = [];
  readonly slipping: { readonly part: DrivePart; readonly coupling: Coupling }[] = [];
  readonly #mechanism: Mechanism;
  readonly #line: Driveline;
  readonly #wheels: readonly WorkingWheel[];
  readonly #ahead: Float64Array;
  readonly #mobility: Matrix;

  constructor(mechanism: Mechanism, line: Driveline, wheels: readonly WorkingWheel[], ahead: Float64Array) {
    this.#mechanism = mechanism;
    this.#line = line;
    this.#wheels = wheels;
    this.#ahead = ahead;
    this.#mobility = turningMobility(mechanism, rodsHold);
  }

  /** One for each shaft with motors that turns wheels. */
  shafts(): SourceShaft[] {
    const { parts } = this.#line;
    return parts.flatMap((part, p) => {
      if (part.inputs.length > 0 || !this.#reaches(p)) return [];
      const join = this.#joinBelow(p);
      if (join < 0) {
        const feeders = this.#feeder([p]);
        const below = this.#branchesOf(part);
        return [
          new SourceShaft(feeders, below.length === 1 ? (below[0] as Branch) : this.#stretch([], part)),
        ];
      }
      // the motor behind the first input stands for all of them
      const rows = (parts[join] as DrivePart).inputs.map((input) => this.#rowUp(input));
      if (rows[0]?.[0] !== p) return [];
      return [
        new SourceShaft(
          rows.flatMap((row) => this.#feeder(row)),
          this.#from(join),
        ),
      ];
    });
  }

  /** The part that several motors turn together, at the end of a row without branches from part p on; −1 for none. */
  #joinBelow(p: number): number {
    const next = (this.#line.parts[p] as DrivePart).outputs.filter((o) => this.#reaches(o));
    const [only] = next;
    if (only === undefined || next.length > 1) return -1;
    return (this.#line.parts[only] as DrivePart).inputs.length > 1 ? only : this.#joinBelow(only);
  }

  /** Parts from a motor down to part p; empty where something branches off between them. */
  #rowUp(p: number): number[] {
    const part = this.#line.parts[p] as DrivePart;
    if (part.outputs.filter((o) => this.#reaches(o)).length > 1 || part.wheels.length > 0) return [];
    const [input] = part.inputs;
    if (input === undefined) return [p];
    const above = this.#rowUp(input);
    return above.length === 0 ? [] : [...above, p];
  }

  /** A motor with the gears that stand between it and the shaft that it feeds. */
  #feeder([source, ...row]: readonly number[]): Feeder[] {
    if (source === undefined) return [];
    const part = this.#line.parts[source] as DrivePart;
    const gears = new Gears(row.map((p) => this.#gear(this.#line.parts[p] as DrivePart, p)));
    return this.#motor(part, this.#senseBelow(source)).map((motor) => new Feeder(motor, gears));
  }

  #motor(part: DrivePart, sense: number): Motor[] {
    const { motor } = part.law;
    if (motor === undefined) return [];
    return [new Motor(part, motor, part.axisOut === 'across' ? sense : 0, this.#most(part, motor))];
  }

  /** Torque that the current limits allow the motors of a part: their own, and their part of the supply's, N·m. */
  #most({ count }: DrivePart, motor: MotorLaw): number {
    const { stallCurrent, stallTorque, noLoadCurrent = 0, currentLimit } = motor;
    if (stallCurrent === undefined) return Number.POSITIVE_INFINITY;
    const motors = this.#line.parts.filter(({ law }) => law.motor?.stallCurrent !== undefined);
    const all = motors.reduce((sum, p) => sum + p.count * (p.law.motor?.stallCurrent ?? 0), 0);
    const supplied = this.#line.supply?.currentLimit ?? Number.POSITIVE_INFINITY;
    const amperes = Math.min(currentLimit ?? Number.POSITIVE_INFINITY, (supplied * stallCurrent) / all);
    const perAmpere = stallTorque / Math.max(stallCurrent - noLoadCurrent, 1e-12);
    return count * perAmpere * Math.max(0, amperes - noLoadCurrent);
  }

  /** Whether a part turns any wheel. */
  #reaches(p: number): boolean {
    const part = this.#line.parts[p] as DrivePart;
    return part.wheels.length > 0 || part.outputs.some((o) => this.#reaches(o));
  }

  /** Whether shafts below part p turn its output's way by the time they reach a wheel: the product of their senses. */
  #senseBelow(p: number): number {
    const part = this.#line.parts[p] as DrivePart;
    if (part.wheels.length > 0) return 1;
    const next = part.outputs.find((o) => this.#reaches(o));
    return next === undefined ? 1 : (this.#line.parts[next] as DrivePart).law.sense * this.#senseBelow(next);
  }

  #branchesOf(part: DrivePart): Branch[] {
    return [
      ...part.outputs.filter((o) => this.#reaches(o)).map((o) => this.#from(o)),
      ...part.wheels.map((w) => this.#end(w)),
    ];
  }

  /** The branch that begins with part p: it goes on to where something branches off, slips or ends. */
  #from(p: number): Branch {
    const { parts } = this.#line;
    const row: Geared[] = [];
    let at = p;
    for (;;) {
      const part = parts[at] as DrivePart;
      row.push(this.#gear(part, at));
      const next = part.outputs.filter((o) => this.#reaches(o));
      if (slips(part) || part.wheels.length > 0 || next.length !== 1) return this.#stretch(row, part);
      at = next[0] as number;
    }
  }

  #gear(part: DrivePart, index: number): Geared {
    const sense = this.#senseBelow(index);
    const geared: Geared = {
      part,
      index,
      into: part.axisIn === 'across' ? sense * part.law.sense : 0,
      out: part.axisOut === 'across' ? sense : 0,
      torque: 0,
    };
    this.geared.push(geared);
    return geared;
  }

  #stretch(row: readonly Geared[], last: DrivePart): Branch {
    const branches = this.#branchesOf(last);
    const { split } = last.law;
    const even = branches.map(() => 1 / branches.length);
    const given = branches.map((_, i) => split?.shares?.[i] ?? 1 / branches.length);
    const all = given.reduce((sum, share) => sum + share, 0);
    const shares = split === undefined || split.mode === 'locked' ? even : given.map((share) => share / all);
    const gears = new Gears(row);
    if (!slips(last)) {
      const coupling = this.#coupling(last, branches, shares);
      return new Stretch(gears, coupling, branches, shares, this.#ahead);
    }
    const [only] = branches;
    const below =
      branches.length === 1 && only !== undefined
        ? only
        : new Stretch(new Gears([]), this.#coupling(last, branches, shares), branches, shares, this.#ahead);
    const most = (last.law.slipTorque ?? Number.POSITIVE_INFINITY) * last.count;
    const clutch = new Clutch(below, most, last.law.oneWay ? 0 : -most);
    this.slipping.push({ part: last, coupling: clutch });
    return new Stretch(gears, clutch, [below], [1], this.#ahead);
  }

  #coupling(part: DrivePart, branches: readonly Branch[], shares: readonly number[]): Coupling {
    const { split } = part.law;
    if (split === undefined || split.mode === 'locked' || branches.length < 2) return new Lock(branches);
    const limited = split.mode === 'limited';
    const differential = new Differential(
      branches,
      shares,
      limited ? split.bias : 1,
      limited ? split.preload : 0,
    );
    if (limited) this.slipping.push({ part, coupling: differential });
    return differential;
  }

  #end(w: number): Branch {
    const end = new WheelEnd(
      this.#wheels[w] as WorkingWheel,
      elsewhere * this.#give(w),
      this.#mechanism.gravity,
    );
    this.ends.push(end);
    return end;
  }

  /**
   * How much the bodies that hold the reaction of an axle line turn with its torque, and with that of every other line:
   * the sum of both is on the safe side for all lines together (a row sum bounds the greatest eigenvalue), rad/s² per N·m.
   */
  #give(w: number): number {
    const { wheels } = this.#mechanism;
    const between = (a: Wheel, b: Wheel) =>
      a.reactions.reduce(
        (sum, r) =>
          sum + b.reactions.reduce((s, q) => s + r.share * q.share * this.#mobility.get(r.body, q.body), 0),
        0,
      );
    const own = wheels[w] as Wheel;
    return wheels.reduce((sum, other) => sum + (other.driven ? Math.abs(between(own, other)) : 0), 0);
  }
}

const slips = ({ law }: DrivePart): boolean => law.slipTorque !== undefined || law.oneWay === true;
