import type { Ground } from '../ground/ground.ts';
import type { Mechanism } from '../mechanism/mechanism.ts';
import { Balance } from '../statics/balance.ts';
import { Solver } from '../statics/solve.ts';
import type { Reading } from './reading.ts';

/** A station that a crossing took, m, and the unknowns of the balance there. */
export interface Seen {
  readonly station: number;
  readonly unknowns: Float64Array;
}

/** Where the extreme was found. */
export interface Place {
  /** The reading there, SI. */
  readonly raw: number;
  readonly station: number;
  readonly unknowns: Float64Array;
  readonly smooth: boolean;
}

/** The balance of a crossing under its own drive, forward (+1) or back (−1). */
export function balanceOf(mechanism: Mechanism, ground: Ground, sense: 1 | -1): Balance {
  const thrust = { kind: 'driven', share: mechanism.drive.share } as const;
  return new Balance(mechanism, ground, { thrust, sense, relaxed: false });
}

/** Share of the way between two stations that a search ends at. */
const finest = 1e-4;
/** Where a kink is looked for, as a share of the way between two stations. */
const beside = 0.02;

/** The search for the extreme of a reading between the stations around it. */
export class Search {
  readonly #balance: Balance;
  readonly #solver: Solver;
  readonly #reading: Reading;
  /** Stations in balance so far: each new one begins at its neighbours. */
  readonly #near: Seen[];
  readonly #unknowns: Float64Array;

  constructor(balance: Balance, reading: Reading, near: readonly Seen[]) {
    this.#balance = balance;
    this.#solver = new Solver(balance);
    this.#reading = reading;
    this.#near = [...near];
    this.#unknowns = new Float64Array(balance.count);
  }

  /** The extreme, or undefined where no balance was found around it. */
  run(): Place | undefined {
    const stations = this.#near.map((n) => n.station);
    const [from, to] = [Math.min(...stations), Math.max(...stations)];
    const middle = (from + to) / 2;
    const width = to - from;
    const level = this.#same(this.#at(middle), this.#at(from), this.#at(to));
    const station = level || !(width > 0) ? middle : this.#golden(from, to);
    const inside = station - from > 1e-3 * width && to - station > 1e-3 * width;
    const smooth = inside && this.#isSmooth(station, width);
    const least = this.#at(station);
    if (!Number.isFinite(least)) return undefined;
    return { raw: -this.#reading.sense * least, station, unknowns: this.#unknowns.slice(), smooth };
  }

  /** The reading in balance at a station, its sign turned so that the extreme is the least; NaN where there is none. */
  #at(station: number): number {
    const known = [...this.#near].sort(
      (p, q) => Math.abs(p.station - station) - Math.abs(q.station - station),
    );
    const [near, far] = [known[0] as Seen, known[1] ?? (known[0] as Seen)];
    const way = far.station - near.station;
    const share = way === 0 ? 0 : (station - near.station) / way;
    const y = this.#unknowns;
    for (let i = 0; i < y.length; i++)
      y[i] =
        (near.unknowns[i] as number) + share * ((far.unknowns[i] as number) - (near.unknowns[i] as number));
    if (!this.#solver.newton(y, station).found) {
      y.set(near.unknowns);
      if (!this.#solver.newton(y, station).found) return Number.NaN;
    }
    this.#near.push({ station, unknowns: y.slice() });
    return -this.#reading.sense * this.#reading.of(this.#balance);
  }

  /** Golden-section search for the least value. Source: Kiefer 1953, Sequential minimax search (place from memory). */
  #golden(from: number, to: number): number {
    const share = (Math.sqrt(5) - 1) / 2;
    let [a, b] = [from, to];
    let [c, d] = [b - share * (b - a), a + share * (b - a)];
    let [atC, atD] = [this.#at(c), this.#at(d)];
    while (b - a > finest * (to - from)) {
      if (atC < atD) {
        [b, d, atD] = [d, c, atC];
        c = b - share * (b - a);
        atC = this.#at(c);
      } else {
        [a, c, atC] = [c, d, atD];
        d = a + share * (b - a);
        atD = this.#at(d);
      }
    }
    return (a + b) / 2;
  }

  /** Whether the value rises on both sides as a parabola does, four times as much at twice the way; at a kink it is twice. */
  #isSmooth(station: number, width: number): boolean {
    const step = beside * width;
    const least = this.#at(station);
    return [-1, 1].every((side) => {
      const once = this.#at(station + side * step);
      const twice = this.#at(station + side * 2 * step);
      return this.#same(least, once, twice) || (twice - least) / (once - least) > 3;
    });
  }

  /** Whether values differ by no more than a hundred times what equilibria are exact to. */
  #same(...values: readonly number[]): boolean {
    const size = Math.max(...values.map(Math.abs));
    return Math.max(...values) - Math.min(...values) <= 1e-7 * size;
  }
}
