import type { Balance } from '../statics/balance.ts';
import { solveInPlace } from '../statics/lu.ts';
import type { Reading } from './reading.ts';
import type { Seen } from './search.ts';

/** A stretch of a crossing within which a reading is at its worst, or a single station at an end of it. */
export interface Dip {
  readonly reading: Reading;
  /** What the reading is a share of; 1 when it is none. */
  readonly whole: number;
  /** Indices of the stations around it. */
  readonly from: number;
  readonly to: number;
  /** How bad it is there by a guess, as a share of `whole`, its sign turned so that lower is worse. */
  readonly depth: number;
}

/** Changes from station to station below this share of the value are rounding: what is level has no dip but is one. */
const level = 1e-7;

/**
 * All dips of all readings over the stations of a crossing, the worst first: between two stations where the reading falls
 * at the first and rises at the second, so that a dip that lies between two stations is not missed. `breaks` are
 * indices of stations that were reached by a jump: there one stretch ends and another begins.
 */
export function dipsOf(
  balance: Balance,
  readings: readonly Reading[],
  wholes: readonly number[],
  seen: readonly Seen[],
  breaks: ReadonlySet<number>,
): Dip[] {
  const slopes = new Slopes(balance);
  const looked = seen.map(({ station, unknowns }) => slopes.of(readings, unknowns, station));
  const dips = readings.flatMap((reading, r) => {
    const whole = wholes[r] as number;
    if (!(whole > 0)) return [];
    const turned = looked.map((all) => {
      const { value, slope } = all[r] as Slope;
      return { value: (-reading.sense * value) / whole, slope: (-reading.sense * slope) / whole };
    });
    return stretchesOf(seen, turned, breaks).map((stretch) => ({ reading, whole, ...stretch }));
  });
  return dips.sort((a, b) => a.depth - b.depth);
}

/** Where one figure dips, its least values wanted: between two stations, or at one where the crossing begins, ends or jumps. */
function stretchesOf(
  seen: readonly Seen[],
  row: readonly Slope[],
  breaks: ReadonlySet<number>,
): Pick<Dip, 'from' | 'to' | 'depth'>[] {
  let levelBefore = false;
  return seen.flatMap(({ station }, i) => {
    const here = row[i] as Slope;
    const next = breaks.has(i + 1) ? undefined : row[i + 1];
    const begins = (i === 0 || breaks.has(i)) && here.slope > 0;
    const ends = next === undefined && here.slope < 0;
    const alone = begins || ends ? [{ from: i, to: i, depth: here.value }] : [];
    const width = Math.abs((seen[i + 1]?.station ?? station) - station);
    const depth = next === undefined ? here.value : lowest(here, next, width);
    const hair = level * Math.abs(depth);
    const even = next !== undefined && Math.max(Math.abs(here.slope), Math.abs(next.slope)) * width <= hair;
    const goesOn = even && levelBefore;
    levelBefore = even;
    if (next === undefined || goesOn) return alone;
    // a level stretch counts once, and before its ends: they are as deep and have no smooth place
    if (even) return [...alone, { from: i, to: i + 1, depth: depth - hair }];
    return depth < Math.min(here.value, next.value) - hair
      ? [...alone, { from: i, to: i + 1, depth }]
      : alone;
  });
}

interface Slope {
  readonly value: number;
  /** Along the way of the crossing, per metre. */
  readonly slope: number;
}

/** Least value of the cubic with these values and slopes at the ends of a way of `width` m, by sixteen places on it. */
function lowest(a: Slope, b: Slope, width: number): number {
  let least = Math.min(a.value, b.value);
  for (let n = 1; n < 16; n++) {
    const t = n / 16;
    const [u, v] = [t * t * (3 - 2 * t), t * (1 - t)];
    least = Math.min(least, (1 - u) * a.value + u * b.value + v * width * ((1 - t) * a.slope - t * b.slope));
  }
  return least;
}

/** Finds how readings change along the crossing: the unknowns move by dy/ds = −A⁻¹·∂r/∂s (implicit function theorem). */
class Slopes {
  readonly #balance: Balance;
  readonly #matrix: Float64Array;
  readonly #rate: Float64Array;
  readonly #moved: Float64Array;

  constructor(balance: Balance) {
    this.#balance = balance;
    this.#matrix = new Float64Array(balance.count ** 2);
    this.#rate = new Float64Array(balance.count);
    this.#moved = new Float64Array(balance.count);
  }

  /** Values and slopes of the readings at an equilibrium y. */
  of(readings: readonly Reading[], y: Float64Array, station: number): Slope[] {
    const { asked, count, mechanism, residual, tangent } = this.#balance;
    const step = 1e-5 * mechanism.size;
    this.#balance.evaluate(y, station + step);
    for (let i = 0; i < count; i++) this.#rate[i] = -(residual[i] as number) / (2 * step);
    this.#balance.evaluate(y, station - step);
    for (let i = 0; i < count; i++)
      this.#rate[i] = (this.#rate[i] as number) + (residual[i] as number) / (2 * step);
    this.#balance.evaluate(y, station);
    const values = readings.map((reading) => reading.of(this.#balance));
    this.#matrix.set(tangent);
    if (!solveInPlace(this.#matrix, this.#rate, count, count))
      return values.map((value) => ({ value, slope: 0 }));
    const beside = (way: number) => {
      for (let i = 0; i < count; i++) this.#moved[i] = (y[i] as number) + way * (this.#rate[i] as number);
      this.#balance.evaluate(this.#moved, station + way);
      return readings.map((reading) => reading.of(this.#balance));
    };
    const [less, more] = [beside(-step), beside(step)];
    const sense = asked.sense < 0 ? -1 : 1;
    return values.map((value, r) => ({
      value,
      slope: (sense * ((more[r] as number) - (less[r] as number))) / (2 * step),
    }));
  }
}
