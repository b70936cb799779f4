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

/** Inputs of all parts in one row: those of part p are entries first[p] to first[p + 1]. */
export interface Inputs {
  readonly first: Int32Array;
  readonly from: Int32Array;
  /** Share of the part's input torque that each brings. */
  readonly shares: Float64Array;
}

/** Finds peaks of torque over a turn; arrays per part in the order of the drive line, written over by each `solve`. */
export class Ripples {
  readonly #inputs: Inputs;
  readonly #ripples: boolean;
  /** 1 where a part has one branch below: then the wave goes on as it is. */
  readonly #single: Uint8Array;
  /** 1 where shafts on both sides turn as one, at the same speed. */
  readonly #through: Uint8Array;
  /** 1 for a joint with a cross; cosine and sine of twice its phase. */
  readonly #cardan: Uint8Array;
  readonly #cos: Float64Array;
  readonly #sin: Float64Array;
  /** The wave at the output (cosine and sine part), and the swing in N·m that has no fixed turn against it. */
  readonly #re: Float64Array;
  readonly #im: Float64Array;
  readonly #swing: Float64Array;

  constructor({ parts }: Driveline, inputs: Inputs) {
    const row = () => new Float64Array(parts.length);
    const phase = (part: DrivePart) => 2 * (part.law.angled?.phase ?? 0);
    this.#inputs = inputs;
    this.#single = Uint8Array.from(parts, ({ outputs, wheels }) =>
      Number(outputs.length + wheels.length === 1),
    );
    this.#through = Uint8Array.from(parts, ({ law }) => Number(law.ratio === 1 && !law.turnsCorner));
    this.#cardan = Uint8Array.from(parts, ({ law }) => Number(law.angled?.joint === 'cardan'));
    this.#ripples = this.#cardan.includes(1);
    this.#cos = Float64Array.from(parts, (part) => Math.cos(phase(part)));
    this.#sin = Float64Array.from(parts, (part) => Math.sin(phase(part)));
    [this.#re, this.#im, this.#swing] = [row(), row(), row()];
  }

  /** Writes the greatest torque over a turn at each output to `peak`, N·m, a size. `angle` of joints in rad. */
  solve(out: Float64Array, into: Float64Array, angle: Float64Array, peak: Float64Array): void {
    if (!this.#ripples) {
      for (let p = 0; p < peak.length; p++) peak[p] = Math.abs(out[p] as number);
      return;
    }
    this.#re.fill(0);
    this.#im.fill(0);
    this.#swing.fill(0);
    for (let p = peak.length - 1; p >= 0; p--) {
      const size = Math.abs(out[p] as number);
      const grown = growth(this.#re[p] as number, this.#im[p] as number);
      peak[p] = size * grown + (this.#swing[p] as number);
      this.#pass(p, size, Math.abs(into[p] as number), grown, angle[p] as number);
    }
  }

  /** Hands wave and swing of part p on to the parts that turn it. */
  #pass(p: number, out: number, into: number, grown: number, angle: number): void {
    let re = this.#re[p] as number;
    let im = this.#im[p] as number;
    let swing = out > 0 ? ((this.#swing[p] as number) * into) / out : 0;
    if (this.#cardan[p] === 1 && angle < Math.PI / 2) {
      const c = this.#cos[p] as number;
      const s = this.#sin[p] as number;
      const turned = c * re - s * im;
      im = -(s * re + c * im);
      re = -Math.log(Math.cos(angle)) - turned;
    } else if (this.#through[p] === 0) {
      swing += into * (grown - 1);
      re = 0;
      im = 0;
    }
    const { first, from, shares } = this.#inputs;
    const [begin, end] = [first[p] as number, first[p + 1] as number];
    const more = growth(re, im) - 1;
    for (let i = begin; i < end; i++) {
      const f = from[i] as number;
      const share = shares[i] as number;
      const goesOn = this.#single[f] === 1 && end - begin === 1;
      this.#swing[f] = (this.#swing[f] as number) + (goesOn ? swing : (swing + into * more) * share);
      if (!goesOn) continue;
      this.#re[f] = re;
      this.#im[f] = im;
    }
  }
}

/** Greatest over mean of a wave whose logarithm has this amplitude. */
const growth = (re: number, im: number): number =>
  re === 0 && im === 0 ? 1 : Math.exp(Math.sqrt(re * re + im * im));
