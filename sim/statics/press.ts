import type { Shortage } from './crawl-watch.ts';
import type { Solver } from './solve.ts';

/** What raising the thrust came to. */
export type Pressed =
  | { readonly kind: 'balanced' }
  | { readonly kind: 'falls' }
  /** `missing`: least force that the hold had to give on the way, N. */
  | ({ readonly kind: 'stuck'; readonly missing: number } & Shortage);

/** First, least and largest step of the thrust unknown, and the most of it that is tried (both kinds are of order one). */
const firstStep = 0.01;
const leastStep = 1e-6;
const largestStep = 0.1;
const mostThrust = 10;
/** Change of pose in one step of thrust that is no longer followed but let go: rad, and wheel radii. */
const snapTurn = 0.05;
const snapSlide = 0.1;

/**
 * Raises the thrust at one station, as a driver does before an obstacle, while a horizontal force at the reference point
 * does what it still leaves undone. Where Newton's method finds no balance, this tells apart a vehicle whose wheels want
 * more than there is, one that falls, and a search that a kink has thrown off.
 */
export class Presser {
  /** Whether the suspension snapped to another pose on the way. */
  snapped = false;
  readonly #solver: Solver;
  readonly #station: number;
  readonly #sense: 1 | -1;
  readonly #limit: () => Shortage | undefined;

  /** `limit`: why the state that was just evaluated asks for more grip or torque than there is. */
  constructor(solver: Solver, station: number, sense: 1 | -1, limit: () => Shortage | undefined) {
    this.#solver = solver;
    this.#station = station;
    this.#sense = sense;
    this.#limit = limit;
  }

  /** From the unknowns of the last balance; they become those of the new one when there is one. */
  press(y: Float64Array): Pressed {
    const last = y.slice();
    if (!this.#settle(y, last, false)) return { kind: 'falls' };
    const way = Math.sign(this.#solver.push);
    const { thrustRow } = this.#solver.balance;
    let step = firstStep;
    let missing = Math.abs(this.#solver.push);
    while (Math.abs(y[thrustRow] as number) < mostThrust) {
      const spent = this.#spent(way);
      if (spent) return { kind: 'stuck', missing, ...spent };
      last.set(y);
      y[thrustRow] = (y[thrustRow] as number) + way * step;
      const least = step <= leastStep;
      const settled = this.#settle(y, last, least);
      if (settled && way * this.#solver.push > 0) {
        missing = Math.min(missing, way * this.#solver.push);
        step = Math.min(largestStep, 2 * step);
        continue;
      }
      if (settled && this.#letGo(y)) return { kind: 'balanced' };
      if (least) return { kind: 'falls' };
      y.set(last);
      step = Math.max(leastStep, step / 8);
    }
    return { kind: 'stuck', missing, cause: `no thrust of the driven wheels ${this.#task(way)}` };
  }

  /** Finds the held pose for the thrust in y: next to the last one, or wherever it falls when that is allowed. */
  #settle(y: Float64Array, last: Float64Array, mayFall: boolean): boolean {
    const solver = this.#solver;
    const { thrustRow } = solver.balance;
    solver.held = true;
    let found = solver.newton(y, this.#station).found && !this.#far(y, last);
    if (!found && mayFall) {
      const thrust = y[thrustRow] as number;
      y.set(last);
      y[thrustRow] = thrust;
      found = solver.sink(y, this.#station).found;
      this.snapped ||= found;
    }
    solver.held = false;
    return found;
  }

  /** Lets the hold go where it has next to nothing to do; whether the vehicle stays where it is. */
  #letGo(y: Float64Array): boolean {
    const start = y.slice();
    return this.#solver.newton(y, this.#station).found && !this.#far(y, start);
  }

  #far(y: Float64Array, from: Float64Array): boolean {
    const { chain, mechanism } = this.#solver.balance;
    for (let i = 0; i < chain.size; i++) {
      const most = chain.turns[i] ? snapTurn : snapSlide * mechanism.size;
      if (Math.abs((y[i] as number) - (from[i] as number)) > most) return true;
    }
    return false;
  }

  /** Why no more thrust is to be had in the state that was just evaluated. */
  #spent(way: number): Shortage | undefined {
    const limit = this.#limit();
    if (limit) return limit;
    const { mechanism, wheels } = this.#solver.balance;
    const left = mechanism.wheels.flatMap(({ driven, tyre }, w) => {
      const state = wheels[w];
      return driven && state && state.normal > 0 ? [tyre.grip - way * state.use] : [];
    });
    if (left.length === 0) return { cause: 'no driven wheel is on the ground' };
    if (left.some((grip) => grip > 1e-6)) return undefined;
    return { by: 'grip', cause: `the grip of all driven wheels together no longer ${this.#task(way)}` };
  }

  #task(way: number): string {
    return way * this.#sense > 0 ? 'carries it on' : 'holds it back';
  }
}
