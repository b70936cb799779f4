import type { Driveline, DrivePart } from './driveline.ts';

/*
 * Ripple of torque over a turn. A cardan joint at angle β passes speed and torque on with a factor between cos β and
 * 1/cos β, twice a turn. As a logarithm that is a wave of amplitude −ln cos β at twice the shaft's turn, and waves of
 * joints on one shaft add by the turn of their yokes: two with aligned yokes take each other away, exactly so in one
 * plane (tan θ_out = tan θ_in·cos β₂/cos β₁), crossed ones add. Source: kinematics of the cardan joint, machine design
 * texts; for yokes between aligned and crossed, first order in the amplitude.
 *
 * Past a gear or a branch the waves keep no fixed turn against each other: there the worst is taken, their sum. The
 * wheels' torque is taken as steady, so that the ripple grows towards the source.
 */

/** Finds peaks of torque over a turn; arrays per part in the order of the drive line, written over by each `solve`. */
export class Ripples {
  readonly #parts: readonly DrivePart[];
  readonly #shares: readonly (readonly number[])[];
  /** Whether a part has one branch below: then the wave goes on as it is. */
  readonly #single: readonly boolean[];
  /** Whether shafts on both sides turn as one, at the same speed. */
  readonly #through: readonly boolean[];
  /** The wave at the output (cosine and sine part), and the swing in N·m that has no fixed turn against it. */
  readonly #re: Float64Array;
  readonly #im: Float64Array;
  readonly #swing: Float64Array;

  constructor({ parts }: Driveline, shares: readonly (readonly number[])[]) {
    const row = () => new Float64Array(parts.length);
    this.#parts = parts;
    this.#shares = shares;
    this.#single = parts.map(({ outputs, wheels }) => outputs.length + wheels.length === 1);
    this.#through = parts.map(({ law }) => law.ratio === 1 && !law.turnsCorner);
    [this.#re, this.#im, this.#swing] = [row(), row(), row()];
  }

  /** Writes the greatest torque over a turn at each output to `peak`, N·m, a size. `angle` of joints in rad. */
  solve(out: ArrayLike<number>, into: ArrayLike<number>, angle: ArrayLike<number>, peak: Float64Array): void {
    this.#re.fill(0);
    this.#im.fill(0);
    this.#swing.fill(0);
    for (let p = this.#parts.length - 1; p >= 0; p--) {
      const size = Math.abs(out[p] as number);
      const wave = Math.hypot(this.#re[p] as number, this.#im[p] as number);
      peak[p] = size * Math.exp(wave) + (this.#swing[p] as number);
      this.#pass(p, size, Math.abs(into[p] as number), wave, angle[p] as number);
    }
  }

  /** Hands wave and swing of part p on to the parts that turn it. */
  #pass(p: number, out: number, into: number, wave: number, angle: number): void {
    const { law, inputs } = this.#parts[p] as DrivePart;
    const gain = out > 0 ? into / out : 0;
    let re = this.#re[p] as number;
    let im = this.#im[p] as number;
    let swing = (this.#swing[p] as number) * gain;
    if (law.angled?.joint === 'cardan' && angle < Math.PI / 2) {
      const c = Math.cos(2 * law.angled.phase);
      const s = Math.sin(2 * law.angled.phase);
      const turned = c * re - s * im;
      im = -(s * re + c * im);
      re = -Math.log(Math.cos(angle)) - turned;
    } else if (!this.#through[p]) {
      swing += into * (Math.exp(wave) - 1);
      re = 0;
      im = 0;
    }
    const size = Math.hypot(re, im);
    for (let i = 0; i < inputs.length; i++) {
      const from = inputs[i] as number;
      const share = this.#shares[p]?.[i] as number;
      this.#swing[from] = (this.#swing[from] as number) + swing * share;
      if (this.#single[from] && inputs.length === 1) {
        this.#re[from] = re;
        this.#im[from] = im;
      } else this.#swing[from] = (this.#swing[from] as number) + into * share * (Math.exp(size) - 1);
    }
  }
}
