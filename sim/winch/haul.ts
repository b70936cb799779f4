import { place } from '../../shared/geometry/vec.ts';
import { evenSlope } from '../ground/even.ts';
import type { Mechanism, Pull } from '../mechanism/mechanism.ts';
import { Balance } from '../statics/balance.ts';
import { poseOf } from '../statics/chain.ts';
import type { Thrust } from '../statics/footing.ts';
import { Solver } from '../statics/solve.ts';
import { firstGuess, tipped } from '../statics/stand.ts';
import type { WinchTask } from './fields.ts';
import type { Winch } from './winch.ts';

/** A vehicle held in balance by its own rope on an even slope. */
export interface Hauled {
  /** Pull of all lines on the vehicle, N. */
  readonly force: number;
  /** Its direction against the ground, rad: 0 along the slope, positive where the anchor is higher than the winch. */
  readonly rise: number;
  /** Load of each axle line across the ground, N; 0 off the ground. */
  readonly loads: readonly number[];
  /** Chassis against the level, rad, nose-up positive. */
  readonly pitch: number;
}

/** What a haul came to. */
export type Haul = ({ readonly kind: 'hauled' } & Hauled) | { readonly kind: 'tips' | 'none' };

/** Unbalanced force along the ground over the weight at which a pull is taken as found. */
const balanced = 1e-8;
const mostRounds = 300;
/** The slope in its own frame: x along it, z across, with gravity turned instead. */
const level = evenSlope(0);
/** All wheels roll freely, with their rolling resistance: a drive that reaches none of them. */
const rolling: Thrust = { kind: 'driven', share: { kind: 'locked', branches: [] } };

/**
 * Pull needed to move a vehicle slowly along an even slope, through the equations of equilibrium: all wheels roll freely
 * with their rolling resistance, the rope pulls at the winch towards the anchor. With `hole` the wheels of that axle line
 * (`line`; −1 for all) stand against an edge of that height: a rigid wheel is held back at its hub by N·tan α with
 * cos α = (r − h)/r, N its load. Source: statics of a wheel over an edge; the vehicle is not pitched by the hole.
 */
export class Hauling {
  readonly #mechanism: Mechanism;
  readonly #winch: Winch;
  readonly #task: WinchTask;
  /** +1 where it is pulled forward, −1 rearward. */
  readonly #way: 1 | -1;
  readonly #guess: Float64Array;
  readonly #weight: number;

  constructor(mechanism: Mechanism, winch: Winch, task: WinchTask) {
    const { gravity, bodies, wheels } = mechanism;
    this.#mechanism = {
      ...mechanism,
      gravity: gravity * Math.cos(task.slope),
      pulls: bodies.map(({ name, mass, centre }, body) => ({
        name,
        body,
        at: centre,
        fx: -mass * gravity * Math.sin(task.slope),
        fz: 0,
      })),
      wheels: wheels.map((w) => ({
        ...w,
        tyre: { ...w.tyre, rolling: task.rolling ?? w.tyre.rolling },
      })),
    };
    this.#winch = winch;
    this.#task = task;
    this.#way = task.towards === 'front' ? 1 : -1;
    const free = new Balance(this.#mechanism, level, { thrust: { kind: 'none' }, sense: 0, relaxed: true });
    this.#guess = new Float64Array(free.count);
    this.#guess.set(firstGuess(this.#mechanism, level, 0));
    this.#weight = mechanism.mass * gravity;
  }

  /** Pull that moves it, with the wheels of axle line `line` in the hole (−1: of all), or none where `line` is absent. */
  needed(line?: number): Haul {
    const y = this.#guess.slice();
    let force = this.#firstForce(line);
    let held = this.#mechanism.wheels.map(() => 0);
    let rise = this.#rise(y);
    for (let round = 0; round < mostRounds; round++) {
      const found = this.#solve(y, force, rise, held, rolling);
      if (found === undefined) return { kind: 'none' };
      if (Math.abs(y[1] as number) > tipped) return { kind: 'tips' };
      const left = found.left;
      const loads = found.balance.wheels.map((w) => w.normal);
      // loads that fall as the hold grows would swing from round to round: later rounds go part of the way
      const share = round < 12 ? 1 : 0.2;
      const next = this.#heldBy(loads, line).map((h, w) => share * h + (1 - share) * (held[w] as number));
      const moved = Math.max(...next.map((h, w) => Math.abs(h - (held[w] as number))));
      const turned = this.#rise(y);
      if (Math.abs(left) < balanced * this.#weight && moved < balanced * this.#weight)
        return { kind: 'hauled', force, rise, loads, pitch: this.#task.slope + (y[1] as number) };
      // the holds follow the loads; the force follows what is left over, and the holds
      const extra = next.reduce((sum, h, w) => sum + h - (held[w] as number), 0);
      const idle = force === 0 && this.#way * left > 0 && extra <= 0;
      if (idle) return { kind: 'hauled', force: 0, rise, loads, pitch: this.#task.slope + (y[1] as number) };
      force = Math.max(0, force - left / (this.#way * Math.cos(rise)) + extra);
      if (!(force < 1e4 * this.#weight)) return { kind: 'none' };
      held = next;
      rise = turned;
    }
    return { kind: 'none' };
  }

  /**
   * Whether the driven wheels, each within its grip and the drive within its torque, do the rest while the rope pulls with
   * `force` N. `hauled`: the balance without drive, whose hold of the hole counts here too.
   */
  helpedBy(force: number, hauled: Hauled, line?: number): boolean {
    const y = this.#guess.slice();
    const { drive } = this.#mechanism;
    const thrust: Thrust = { kind: 'driven', share: drive.share };
    const found = this.#solve(y, force, hauled.rise, this.#heldBy(hauled.loads, line), thrust);
    if (found === undefined) return false;
    const { wheels } = found.balance;
    const within = this.#mechanism.wheels.every((wheel, w) => {
      const { use, torque, normal } = wheels[w] as (typeof wheels)[number];
      if (!wheel.driven || normal <= 0) return true;
      const grip = Math.abs(use) <= wheel.tyre.grip * 1.0001;
      return grip && (drive.sources !== undefined || Math.abs(torque) <= wheel.torqueLimit * 1.0001);
    });
    const sources = (drive.sources ?? []).every(
      ({ needs, limit }) =>
        Math.abs(needs.reduce((sum, need, w) => sum + need * (wheels[w]?.torque ?? 0), 0)) <= limit * 1.0001,
    );
    return within && sources;
  }

  /**
   * Loads of all axle lines under a pull at the winch straight away from the ground, N; undefined where no balance was found,
   * as it is once the rope carries all.
   */
  lifted(force: number): readonly number[] | undefined {
    const y = this.#guess.slice();
    const pull: Pull = { ...this.#rope(), fx: 0, fz: force };
    const mechanism = { ...this.#mechanism, pulls: [...this.#mechanism.pulls, pull] };
    const balance = new Balance(mechanism, level, {
      thrust: { kind: 'none' },
      sense: 0,
      relaxed: true,
    });
    if (!new Solver(balance).sink(y, 0).found || Math.abs(y[1] as number) > tipped) return undefined;
    return balance.wheels.map((w) => w.normal);
  }

  #rope(): Pick<Pull, 'name' | 'body' | 'at'> {
    const { name, body, at } = this.#winch;
    return { name, body, at };
  }

  /** Slope and rolling by the closed form, and the hold of the hole. */
  #firstForce(line: number | undefined): number {
    const { slope } = this.#task;
    const f = Math.max(...this.#mechanism.wheels.map((w) => w.tyre.rolling));
    const along = this.#weight * (this.#way * Math.sin(slope) + f * Math.cos(slope));
    const share = this.#weight / this.#mechanism.wheels.length;
    const loads = this.#mechanism.wheels.map(() => share);
    return Math.max(0, along + this.#heldBy(loads, line).reduce((sum, h) => sum + h, 0));
  }

  /** Force at the hubs of each line that its edge holds it back with, N. */
  #heldBy(loads: readonly number[], line: number | undefined): number[] {
    const { hole } = this.#task;
    return this.#mechanism.wheels.map((wheel, w) => {
      if (line === undefined || !(hole > 0) || (line >= 0 && line !== w)) return 0;
      // what rolling resistance takes of this line already is part of it
      return (loads[w] as number) * Math.max(0, edgeHold(hole, wheel.radius) - wheel.tyre.rolling);
    });
  }

  /** Direction of the rope against the ground in the pose of y, rad. */
  #rise(y: Float64Array): number {
    const { distance, height } = this.#task.anchor;
    if (distance === undefined || height === undefined) return 0;
    const balance = new Balance(this.#mechanism, level, {
      thrust: { kind: 'none' },
      sense: 0,
      relaxed: true,
    });
    balance.evaluate(y, 0);
    const point = place(poseOf(balance.chain, balance.state, this.#winch.body), this.#winch.at);
    return Math.atan2(height - point.z, distance);
  }

  /** Balance under a pull, with what is left over along the level, N (forward positive). */
  #solve(y: Float64Array, force: number, rise: number, held: readonly number[], thrust: Thrust) {
    const pulls: Pull[] = [
      ...this.#mechanism.pulls,
      { ...this.#rope(), fx: this.#way * force * Math.cos(rise), fz: force * Math.sin(rise) },
      ...this.#mechanism.wheels.flatMap((wheel, w): Pull[] => {
        const hold = -this.#way * (held[w] as number);
        return hold === 0 ? [] : [{ name: wheel.name, body: wheel.body, at: wheel.hub, fx: hold, fz: 0 }];
      }),
    ];
    const mechanism = { ...this.#mechanism, pulls };
    const balance = new Balance(mechanism, level, { thrust, sense: this.#way, relaxed: true });
    const unknowns = new Float64Array(balance.count);
    unknowns.set(y.subarray(0, balance.chain.size));
    const solver = new Solver(balance);
    solver.held = thrust === rolling;
    if (!solver.sink(unknowns, 0).found) return undefined;
    y.set(unknowns.subarray(0, balance.chain.size));
    const left = balance.wheels.reduce((sum, w) => sum + w.fx, 0) + pulls.reduce((sum, p) => sum + p.fx, 0);
    return { balance, left };
  }
}

/**
 * Horizontal force at the hub over the load for a rigid wheel of radius r (m) to leave the ground before an edge of height
 * h (m): tan α, cos α = (r − h)/r; infinite from the height of the hub up.
 * Source: moments about the edge, any text on statics (a wheel pulled over a kerb).
 */
export function edgeHold(height: number, radius: number): number {
  if (!(height < radius)) return Number.POSITIVE_INFINITY;
  return Math.sqrt(2 * radius * height - height * height) / (radius - height);
}
