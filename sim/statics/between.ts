import type { BodyPoint } from '../mechanism/mechanism.ts';
import type { Chain, ChainState } from './chain.ts';

/**
 * The line between two drawn points of a mechanism's bodies: its length, and a pull along it. Freedoms that carry both
 * ends move neither against the other, so only those of one end alone take part.
 */
export class Between {
  /** Length when last measured, m. */
  length = 0;
  /** Freedoms that change the length, and ∂L/∂q of each when last pulled. */
  readonly freedoms: Int32Array;
  readonly rates: Float64Array;
  readonly #chain: Chain;
  readonly #a: BodyPoint;
  readonly #b: BodyPoint;
  /** The first this many freedoms move end a, the others end b. */
  readonly #ofA: number;
  readonly #dx: Float64Array;
  readonly #dz: Float64Array;
  readonly #ends = new Float64Array(4);

  constructor(chain: Chain, a: BodyPoint, b: BodyPoint) {
    const [pathA, pathB] = [chain.path[a.body] as Int32Array, chain.path[b.body] as Int32Array];
    let common = 0;
    while (common < pathA.length && pathA[common] === pathB[common]) common++;
    this.freedoms = Int32Array.from([...pathA.subarray(common), ...pathB.subarray(common)]);
    this.rates = new Float64Array(this.freedoms.length);
    this.#chain = chain;
    this.#a = a;
    this.#b = b;
    this.#ofA = pathA.length - common;
    this.#dx = new Float64Array(this.freedoms.length);
    this.#dz = new Float64Array(this.freedoms.length);
  }

  /** Finds both ends and the distance between them, m. */
  measure(state: ChainState): number {
    const ends = this.#ends;
    this.#place(state, this.#a, 0);
    this.#place(state, this.#b, 2);
    const dx = (ends[2] as number) - (ends[0] as number);
    const dz = (ends[3] as number) - (ends[1] as number);
    this.length = Math.sqrt(dx * dx + dz * dz);
    return this.length;
  }

  #place(state: ChainState, { body, at }: BodyPoint, to: number): void {
    const i = this.#chain.last[body] as number;
    const [c, s] = [state.cos[i] as number, state.sin[i] as number];
    this.#ends[to] = (state.x[i] as number) + c * at.x - s * at.z;
    this.#ends[to + 1] = (state.z[i] as number) + s * at.x + c * at.z;
  }

  /**
   * Pulls the ends, as last measured, together by `tension` N that grows by `rate` N per metre of length: rows
   * −T·∂L/∂q, and their slopes −rate·∂L·∂Lᵀ − T·∂²L. With D the motion of b against a and u the way from a to b,
   * ∂²L = (D·D − (u·D)(u·D))/L + u·∂²(b − a).
   */
  pull(
    state: ChainState,
    tension: number,
    rate: number,
    residual: Float64Array,
    tangent: Float64Array,
    count: number,
  ): void {
    const { turns, sign } = this.#chain;
    const { freedoms, rates, length } = this;
    const [dx, dz, ends, ofA] = [this.#dx, this.#dz, this.#ends, this.#ofA];
    const ux = length > 0 ? ((ends[2] as number) - (ends[0] as number)) / length : 0;
    const uz = length > 0 ? ((ends[3] as number) - (ends[1] as number)) / length : 1;
    for (let k = 0; k < freedoms.length; k++) {
      const i = freedoms[k] as number;
      const end = k < ofA ? 0 : 2;
      const side = k < ofA ? -1 : 1;
      const s = side * (sign[i] as number);
      dx[k] = turns[i]
        ? -s * ((ends[end + 1] as number) - (state.wz[i] as number))
        : side * (state.wx[i] as number);
      dz[k] = turns[i]
        ? s * ((ends[end] as number) - (state.wx[i] as number))
        : side * (state.wz[i] as number);
      const g = ux * (dx[k] as number) + uz * (dz[k] as number);
      rates[k] = g;
      residual[i] = (residual[i] as number) - tension * g;
    }
    const across = length > 0 ? tension / length : 0;
    for (let k = 0; k < freedoms.length; k++) {
      const i = freedoms[k] as number;
      for (let l = k; l < freedoms.length; l++) {
        const j = freedoms[l] as number;
        const [xl, zl] = [dx[l] as number, dz[l] as number];
        const g = (rates[k] as number) * (rates[l] as number);
        // a turn of an end swings all motions after it on the same end
        const swung =
          turns[i] && k < ofA === l < ofA ? tension * (sign[i] as number) * (uz * xl - ux * zl) : 0;
        const slope = -rate * g - across * ((dx[k] as number) * xl + (dz[k] as number) * zl - g) - swung;
        tangent[i * count + j] = (tangent[i * count + j] as number) + slope;
        if (k !== l) tangent[j * count + i] = (tangent[j * count + i] as number) + slope;
      }
    }
  }
}
