import type { Balance } from './balance.ts';
import { solveInPlace } from './lu.ts';

/** How a search for equilibrium went. */
export interface Solved {
  readonly found: boolean;
  /** Largest unbalanced force over the weight. */
  readonly residual: number;
  readonly iterations: number;
}

/** Unbalanced force over weight at which a state counts as balanced. */
const balanced = 1e-9;
/** The same, where a further iteration no longer makes it better: working precision on steep or far-off ground. */
const asGoodAsItGets = 1e-7;
/** Greatest change of a turn (rad) and of a slide (wheel radii) in one iteration: keeps Newton on its branch. */
const mostTurn = 0.3;
const mostSlide = 0.3;

/** Iterations that may make the residual worse before steps are shortened. */
const patience = 12;

/** Newton's method and its fall-back on one balance; keeps its scratch memory between calls. */
export class Solver {
  readonly balance: Balance;
  readonly #step: Float64Array;
  readonly #matrix: Float64Array;
  readonly #mostTurn: number;
  /** Keeps the thrust as it is: a horizontal force at the reference point does what it leaves undone. */
  held = false;
  /** That force, N, forward positive. */
  push = 0;

  constructor(balance: Balance) {
    // no hub may be carried through the ground in one step: from below it feels no ground, and the search would end with
    // the vehicle on its nose
    const hubs = balance.mechanism.wheels.map((w) => w.hub.x);
    const reach = Math.max(balance.mechanism.size, 0.5 * (Math.max(...hubs) - Math.min(...hubs)));
    this.#mostTurn = Math.min(mostTurn, (mostSlide * balance.mechanism.size) / reach);
    this.balance = balance;
    this.#step = new Float64Array(balance.count);
    this.#matrix = new Float64Array(balance.count * balance.count);
  }

  /** Newton's method from y, which becomes the answer: quick from a good start, for stations along a crossing. */
  newton(y: Float64Array, station: number, most = 40): Solved {
    const { balance } = this;
    let least = Number.POSITIVE_INFINITY;
    let share = 1;
    for (let n = 0; n < most; n++) {
      const residual = this.#evaluate(y, station);
      if (residual < balanced || (residual < asGoodAsItGets && residual > 0.5 * least))
        return { found: true, residual, iterations: n };
      // dry friction and stops bend the equations: a full step may hop from one side of a corner to the other for ever
      if (residual < least) least = residual;
      else if (n > patience) share = Math.max(0.1, 0.6 * share);
      if (!Number.isFinite(residual)) return { found: false, residual, iterations: n };
      this.#fill();
      if (!solveInPlace(this.#matrix, this.#step, balance.count, balance.count))
        return { found: false, residual, iterations: n };
      this.#take(y, this.#step, share);
    }
    const residual = this.#evaluate(y, station);
    return { found: residual < balanced, residual, iterations: most };
  }

  /**
   * Pseudo-time: the vehicle sinks into place as in thick oil, D·q̇ = Q, by implicit Euler steps that grow as the forces
   * balance. Slow and sure: it ends in a stable equilibrium or not at all. Source: pseudo-transient continuation
   * (Kelley & Keyes, SIAM J. Numer. Anal. 35, 1998; place from memory).
   */
  sink(y: Float64Array, station: number, most = 400): Solved {
    const { balance } = this;
    const { size } = balance.mechanism;
    let pace = 0.01;
    let before = Number.POSITIVE_INFINITY;
    for (let n = 0; n < most; n++) {
      const residual = this.#evaluate(y, station);
      if (residual < balanced || (residual < asGoodAsItGets && residual > 0.5 * before))
        return { found: true, residual, iterations: n };
      if (!Number.isFinite(residual)) return { found: false, residual, iterations: n };
      pace = Math.min(1e9, Math.max(1e-4, pace * Math.min(3, before / residual)));
      before = residual;
      this.#fill();
      // oil: the weight per wheel radius and unit of pseudo-time, on every freedom
      for (let i = 0; i < balance.chain.size; i++) {
        const oil = balance.chain.turns[i] ? balance.weight * size : balance.weight / size;
        const at = i * balance.count + i;
        this.#matrix[at] = (this.#matrix[at] as number) - oil / pace;
      }
      // thrust gives way too: it falls while the ground pushes the vehicle on, and rises while it is held back
      if (balance.thrustRow >= 0 && !this.held) {
        const at = balance.thrustRow * (balance.count + 1);
        this.#matrix[at] = (this.#matrix[at] as number) + balance.weight / pace;
      }
      if (!solveInPlace(this.#matrix, this.#step, balance.count, balance.count))
        return { found: false, residual, iterations: n };
      this.#take(y, this.#step);
    }
    return { found: false, residual: before, iterations: most };
  }

  /** Evaluates the balance, without the row of the thrust while it is held. Gives the worst of what is left. */
  #evaluate(y: Float64Array, station: number): number {
    const { balance } = this;
    balance.evaluate(y, station);
    if (this.held) {
      this.push = -(balance.residual[balance.thrustRow] as number);
      balance.residual[balance.thrustRow] = 0;
    }
    return balance.worst();
  }

  /** Matrix and right-hand side of a step. */
  #fill(): void {
    const { count, thrustRow, tangent, residual } = this.balance;
    this.#matrix.set(tangent);
    for (let i = 0; i < count; i++) this.#step[i] = -(residual[i] as number);
    if (!this.held) return;
    this.#matrix.fill(0, thrustRow * count, (thrustRow + 1) * count);
    this.#matrix[thrustRow * count + thrustRow] = 1;
  }

  /** Adds a share of a step, shortened as a whole so that no freedom moves further than it may. */
  #take(y: Float64Array, step: Float64Array, wanted = 1): void {
    const { chain, mechanism } = this.balance;
    let share = wanted;
    for (let i = 0; i < chain.size; i++) {
      const most = chain.turns[i] ? this.#mostTurn : mostSlide * mechanism.size;
      const size = Math.abs(step[i] as number);
      if (size * share > most) share = most / size;
    }
    for (let i = 0; i < this.balance.count; i++) y[i] = (y[i] as number) + share * (step[i] as number);
  }
}
