import type { Ground } from '../ground/ground.ts';
import type { Mechanism } from '../mechanism/mechanism.ts';
import { type Asked, Balance } from '../statics/balance.ts';
import { solveInPlace } from '../statics/lu.ts';
import { type Knob, settingsFor } from './knob.ts';
import type { Study } from './study.ts';
import type { Worst } from './worst.ts';

/** A figure of a balance that is looked at. */
type Figure = (balance: Balance) => number;

/**
 * How a figure f(y, p) of an equilibrium r(y, p) = 0 changes with parameters p, y moving along to keep the balance:
 *   df/dp = ∂f/∂p − λᵀ·∂r/∂p,  Aᵀ·λ = (∂f/∂y)ᵀ,  A = ∂r/∂y the exact tangent,
 * so that one solution of the transposed system serves all parameters. Source: implicit function theorem, adjoint form
 * (any text on sensitivity analysis). ∂f/∂y, and ∂r/∂p and ∂f/∂p at a fixed y, are central differences of the plain sums.
 */
export class Sensor {
  readonly #y: Float64Array;
  readonly #station: number;
  readonly #ground: Ground;
  readonly #asked: Asked;
  readonly #figure: Figure;
  readonly #adjoint: Float64Array;

  /** `balance` at its equilibrium y. @throws RangeError when the tangent is singular there */
  constructor(balance: Balance, y: Float64Array, station: number, figure: Figure) {
    this.#y = y;
    this.#station = station;
    this.#ground = balance.ground;
    this.#asked = balance.asked;
    this.#figure = figure;
    this.#adjoint = adjointOf(balance, y, station, figure);
  }

  /** The change of the figure between two vehicles of the same build, over `way`: what belongs to ∂f/∂p and λᵀ·∂r/∂p. */
  between(less: Mechanism, more: Mechanism, way: number): number {
    const low = this.#evaluated(less);
    const high = this.#evaluated(more);
    let change = this.#figure(high) - this.#figure(low);
    for (let i = 0; i < this.#adjoint.length; i++)
      change -= (this.#adjoint[i] as number) * ((high.residual[i] as number) - (low.residual[i] as number));
    return change / way;
  }

  #evaluated(mechanism: Mechanism): Balance {
    const balance = new Balance(mechanism, this.#ground, this.#asked);
    balance.evaluate(this.#y, this.#station);
    return balance;
  }
}

/** λ of Aᵀ·λ = (∂f/∂y)ᵀ at the equilibrium y. */
function adjointOf(balance: Balance, y: Float64Array, station: number, figure: Figure): Float64Array {
  const { count, chain, mechanism, weight } = balance;
  balance.evaluate(y, station);
  const transposed = new Float64Array(count * count);
  for (let i = 0; i < count; i++)
    for (let j = 0; j < count; j++) transposed[j * count + i] = balance.tangent[i * count + j] as number;
  const right = new Float64Array(count);
  const moved = y.slice();
  for (let j = 0; j < count; j++) {
    const step = 1e-6 * unitOf(j);
    moved[j] = (y[j] as number) + step;
    balance.evaluate(moved, station);
    const high = figure(balance);
    moved[j] = (y[j] as number) - step;
    balance.evaluate(moved, station);
    right[j] = (high - figure(balance)) / (2 * step);
    moved[j] = y[j] as number;
  }
  if (!solveInPlace(transposed, right, count, count)) throw new RangeError('the balance is singular here');
  return right;

  /** What an unknown is measured by: a radius of a wheel, a radian, the thrust unknown itself, the weight. */
  function unitOf(j: number): number {
    if (j < chain.size) return chain.turns[j] ? 1 : mechanism.size;
    return j === balance.thrustRow ? 1 : weight;
  }
}

/** Step of the central differences: share of a value, of a wheel radius, or of a radian. */
const share = 1e-4;

/** How a measure at its worst station changes with knobs, per SI unit of each: exact, as far as the worst is smooth. */
export class WorstSensor {
  readonly #study: Study;
  readonly #worst: Worst;
  readonly #here: Sensor;
  readonly #standing: Sensor | undefined;

  constructor(study: Study, worst: Worst) {
    const { balance, unknowns, station, reading, stand, start } = worst;
    this.#study = study;
    this.#worst = worst;
    this.#here = new Sensor(balance, unknowns, station, reading.of);
    if (reading.shareOf === undefined) return;
    const wheel = reading.shareOf;
    const free = { thrust: { kind: stand.grip > 0 ? 'parked' : 'none' }, sense: 0, relaxed: true } as const;
    const standing = new Balance(balance.mechanism, balance.ground, free);
    this.#standing = new Sensor(standing, stand.unknowns, start, (b) => b.wheels[wheel]?.fz ?? 0);
  }

  /** d(measure)/d(knob) in SI; undefined where the vehicle cannot be had on either side of the knob's value. */
  of(knob: Knob): number | undefined {
    const { size } = this.#worst.balance.mechanism;
    const unit = knob.dimension === 'length' ? size : knob.dimension === 'angle' ? 1 : Math.abs(knob.now);
    const step = share * unit;
    const [less, more] = [this.#vehicle(knob, -step), this.#vehicle(knob, step)];
    const here = this.#study.vehicle();
    const [low, high] = [
      less ?? (here.ok ? here.mechanism : undefined),
      more ?? (here.ok ? here.mechanism : undefined),
    ];
    const way = (less === undefined ? 0 : step) + (more === undefined ? 0 : step);
    if (low === undefined || high === undefined || !(way > 0)) return undefined;
    const raw = this.#here.between(low, high, way);
    if (this.#standing === undefined) return raw;
    const whole = this.#standing.between(low, high, way);
    return (raw - this.#worst.value * whole) / this.#worst.whole;
  }

  #vehicle(knob: Knob, by: number): Mechanism | undefined {
    const vehicle = this.#study.vehicle(settingsFor([{ knob, to: knob.now + by }]));
    return vehicle.ok ? vehicle.mechanism : undefined;
  }
}
