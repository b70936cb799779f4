import type { Ground } from '../ground/ground.ts';
import type { DriveShare, Mechanism, Wheel } from '../mechanism/mechanism.ts';
import { findTouch, makeTouch, type Touch } from '../tyre/touch.ts';
import { type Chain, type ChainState, pointOf, pointRates } from './chain.ts';
import { biasCarries, hangsFree, hasBias, type Share, shareAt, shareSlopes, sharesOf } from './split.ts';

/** What one axle line does in a state; N, N·m, m. */
export interface WheelBalance {
  /** Force of the ground on the hub. */
  fx: number;
  fz: number;
  /** Size of the force across the contact, and its moment arm sum Σ N·lever. */
  normal: number;
  moment: number;
  /** Forward friction over normal force, and the drive torque that it needs. */
  use: number;
  torque: number;
  /** It spins behind a differential, so that the others do not get the torque that they need. */
  spinning: boolean;
  /** Torque that its differentials would give it if it had the grip. */
  asked: number;
  /** Greatest depth of the ground in the tyre, and station of the contact (load-weighted). */
  depth: number;
  contact: number;
}

/**
 * How the wheels push: freely rolling, parked with all wheels locked, driven through a tree of locks and splits, or held
 * by given torques (N·m per axle line, forward positive; a wheel gives no more than its grip).
 */
export type Thrust =
  | { readonly kind: 'none' | 'parked' }
  | { readonly kind: 'driven'; readonly share: DriveShare }
  | { readonly kind: 'given'; readonly torques: readonly number[] };

/** Whether a thrust brings an unknown with it that makes the forces along the ground balance. */
export const hasUnknown = (thrust: Thrust): boolean => thrust.kind === 'parked' || thrust.kind === 'driven';

/** One axle line with everything that its place in the chain brings. */
interface Line {
  readonly wheel: Wheel;
  readonly touch: Touch;
  readonly path: Int32Array;
  readonly out: WheelBalance;
  readonly share: Share | undefined;
  /** ∂hub/∂q, over all freedoms. */
  readonly dx: Float64Array;
  readonly dz: Float64Array;
  /** ∂moment/∂q, ∂use/∂q, ∂torque/∂q. */
  readonly momentBy: Float64Array;
  readonly useBy: Float64Array;
  readonly torqueBy: Float64Array;
  /** ∂use/∂τ and ∂torque/∂τ. */
  useByThrust: number;
  torqueByThrust: number;
  /** Force across the contact. */
  px: number;
  pz: number;
  /** Hub, m. */
  x: number;
  z: number;
}

/** Rows and columns that the footing writes to. */
export interface Equations {
  readonly residual: Float64Array;
  readonly tangent: Float64Array;
  readonly count: number;
  readonly thrustRow: number;
}

/**
 * All wheels on the ground at one state. With P the normal force of a line's contacts, m = Σ N·lever its moment arm and
 * η its friction over its normal force, the ground pushes the hub by P + η·(Pz, −Px), and the drive torque is
 * T = (η + c·sense)·m with c the rolling resistance; bodies named by the wheel take the reaction.
 */
export class Footing {
  readonly wheels: readonly WheelBalance[];
  readonly #lines: readonly Line[];
  readonly #moments: Float64Array;
  readonly #slopes: Float64Array;
  readonly #point = new Float64Array(2);
  readonly #chain: Chain;
  readonly #thrust: Thrust;
  readonly #sense: number;
  /** Whether any differential is a limited one. */
  readonly #limited: boolean;
  #ground: Ground | undefined;

  /** `unit`: torque that a thrust unknown of 1 stands for behind an open root, N·m. */
  constructor(mechanism: Mechanism, chain: Chain, thrust: Thrust, sense: -1 | 0 | 1, unit: number) {
    const row = () => new Float64Array(chain.size);
    const shares = thrust.kind === 'driven' ? sharesOf(mechanism, thrust.share, unit) : [];
    this.#limited = thrust.kind === 'driven' && hasBias(thrust.share);
    this.#chain = chain;
    this.#thrust = thrust;
    this.#sense = sense;
    this.#moments = new Float64Array(mechanism.wheels.length);
    this.#slopes = new Float64Array(mechanism.wheels.length);
    this.#lines = mechanism.wheels.map((wheel, w) => ({
      wheel,
      touch: makeTouch(),
      path: chain.path[wheel.body] as Int32Array,
      out: {
        fx: 0,
        fz: 0,
        normal: 0,
        moment: 0,
        use: 0,
        torque: 0,
        spinning: false,
        asked: 0,
        depth: 0,
        contact: 0,
      },
      share: shares[w],
      dx: row(),
      dz: row(),
      momentBy: row(),
      useBy: row(),
      torqueBy: row(),
      useByThrust: 0,
      torqueByThrust: 0,
      px: 0,
      pz: 0,
      x: 0,
      z: 0,
    }));
    this.wheels = this.#lines.map((line) => line.out);
  }

  /** Number of separate contacts of a line. */
  contactsOf(w: number): number {
    return this.#lines[w]?.touch.count ?? 0;
  }

  /** Energy stored in all tyres at the state met last, J. */
  stored(): number {
    const ground = this.#ground;
    if (!ground) return 0;
    return this.#lines.reduce((sum, { touch, wheel, x, z }) => {
      findTouch(touch, ground, x, z, wheel.radius);
      return sum + touch.energy * wheel.tyre.foundation;
    }, 0);
  }

  /** Finds all contacts at the chain's state and adds forces, thrust and reactions to the equations. */
  add(state: ChainState, ground: Ground, thrust: number, to: Equations): void {
    this.#ground = ground;
    for (let w = 0; w < this.#lines.length; w++) this.#touch(this.#lines[w] as Line, w, state, ground);
    for (let w = 0; w < this.#lines.length; w++) {
      const line = this.#lines[w] as Line;
      this.#drive(line, w, thrust);
      if (line.touch.count > 0) this.#push(line, to);
      if (line.out.torque !== 0) this.#react(line, to);
    }
    if (this.#limited && this.#thrust.kind === 'driven' && biasCarries(this.#thrust.share, this.wheels))
      for (let w = 0; w < this.#lines.length; w++) (this.#lines[w] as Line).out.spinning = false;
  }

  /** Contacts of one line: normal force, moment arm and their change with the freedoms. */
  #touch(line: Line, w: number, state: ChainState, ground: Ground): void {
    const { wheel, touch, path, out, dx, dz } = line;
    pointOf(this.#chain, state, wheel.body, wheel.hub.x, wheel.hub.z, this.#point);
    const x = this.#point[0] as number;
    const z = this.#point[1] as number;
    findTouch(touch, ground, x, z, wheel.radius, false);
    line.x = x;
    line.z = z;
    const k = wheel.tyre.foundation;
    let [px, pz, moment, contact, press, depth] = [0, 0, 0, 0, 0, 0];
    for (let row = 0; row < touch.count; row++) {
      px += touch.fx[row] as number;
      pz += touch.fz[row] as number;
      moment += touch.moment[row] as number;
      press += touch.press[row] as number;
      contact += contactOf(touch, row, x);
      depth = Math.max(depth, touch.depth[row] as number);
    }
    line.px = k * px;
    line.pz = k * pz;
    out.normal = Math.sqrt(line.px * line.px + line.pz * line.pz);
    out.moment = k * moment;
    out.depth = depth;
    out.contact = press > 0 ? contact / press : x;
    this.#moments[w] = out.moment;
    if (touch.count === 0) {
      line.momentBy.fill(0);
      return;
    }
    pointRates(this.#chain, state, path, x, z, dx, dz);
    const mx = k * (touch.tangent[4] as number);
    const mz = k * (touch.tangent[5] as number);
    for (let n = 0; n < path.length; n++) {
      const j = path[n] as number;
      line.momentBy[j] = mx * (dx[j] as number) + mz * (dz[j] as number);
    }
  }

  /** Use of grip and drive torque of one line, with their derivatives. */
  #drive(line: Line, w: number, thrust: number): void {
    const { out, wheel } = line;
    const rolling = this.#sense * wheel.tyre.rolling;
    line.useByThrust = 0;
    line.torqueByThrust = 0;
    line.useBy.fill(0);
    line.torqueBy.fill(0);
    if (this.#thrust.kind === 'parked') this.#hold(line, thrust);
    else if (this.#thrust.kind === 'given') this.#give(line, this.#thrust.torques[w] ?? 0);
    else if (line.share) this.#split(line, line.share, w, thrust, rolling);
    else {
      out.use = this.#thrust.kind === 'none' ? 0 : -rolling;
      out.torque = 0;
    }
    out.fx = line.px + out.use * line.pz;
    out.fz = line.pz - out.use * line.px;
  }

  /** A locked wheel holds in proportion to its load; its carrier takes the torque. */
  #hold(line: Line, thrust: number): void {
    const { out } = line;
    out.use = thrust;
    out.torque = thrust * out.moment;
    line.useByThrust = 1;
    line.torqueByThrust = out.moment;
    for (let j = 0; j < line.torqueBy.length; j++) line.torqueBy[j] = thrust * (line.momentBy[j] as number);
  }

  /** A given torque, as far as grip carries it. */
  #give(line: Line, torque: number): void {
    const { out, wheel } = line;
    out.use = 0;
    out.torque = 0;
    if (!(out.moment > 0)) return;
    const use = torque / out.moment;
    const capped = Math.abs(use) > wheel.tyre.grip;
    out.use = capped ? Math.sign(use) * wheel.tyre.grip : use;
    out.torque = out.use * out.moment;
    const by = capped ? line.torqueBy : line.useBy;
    const slope = capped ? out.use : -use / out.moment;
    for (let j = 0; j < by.length; j++) by[j] = slope * (line.momentBy[j] as number);
  }

  #split(line: Line, share: Share, w: number, thrust: number, rolling: number): void {
    const { out, wheel } = line;
    const moment = out.moment;
    out.use = 0;
    out.torque = 0;
    out.spinning =
      share.behind === 'differential' && !(moment > 0) && thrust !== 0 && hangsFree(share, this.#moments);
    const c = shareAt(share, this.#moments);
    out.asked = thrust * c;
    if (!(moment > 0)) return;
    const use = (thrust * c) / moment - rolling;
    if (share.behind !== 'locks' && Math.abs(use) > wheel.tyre.grip) {
      out.spinning = share.behind === 'differential';
      out.use = Math.sign(use) * wheel.tyre.grip;
      out.torque = (out.use + rolling) * moment;
      for (let j = 0; j < line.torqueBy.length; j++)
        line.torqueBy[j] = (out.use + rolling) * (line.momentBy[j] as number);
      return;
    }
    out.use = use;
    out.torque = thrust * c;
    line.useByThrust = c / moment;
    line.torqueByThrust = c;
    shareSlopes(share, this.#moments, c, this.#slopes);
    for (let v = 0; v < this.#lines.length; v++) {
      const slope = thrust * (this.#slopes[v] as number);
      const own = v === w ? out.torque / moment : 0;
      if (slope === 0 && own === 0) continue;
      const by = (this.#lines[v] as Line).momentBy;
      for (let j = 0; j < by.length; j++) {
        line.torqueBy[j] = (line.torqueBy[j] as number) + slope * (by[j] as number);
        line.useBy[j] = (line.useBy[j] as number) + ((slope - own) / moment) * (by[j] as number);
      }
    }
  }

  /** Puts the force on the hub into the rows of its path, with its tangent. */
  #push(line: Line, to: Equations): void {
    const { wheel, touch, path, out, dx, dz, px, pz, useBy } = line;
    const { turns, sign } = this.#chain;
    const { residual, tangent, count, thrustRow } = to;
    const k = wheel.tyre.foundation;
    const t = touch.tangent;
    // ∂(P + η·(Pz, −Px))/∂hub with η held
    const kxx = k * ((t[0] as number) + out.use * (t[2] as number));
    const kxz = k * ((t[1] as number) + out.use * (t[3] as number));
    const kzx = k * ((t[2] as number) - out.use * (t[0] as number));
    const kzz = k * ((t[3] as number) - out.use * (t[1] as number));
    const n = this.#chain.size;
    for (let j = 0; j < n; j++) {
      const u = useBy[j] as number;
      const fx = kxx * (dx[j] as number) + kxz * (dz[j] as number) + pz * u;
      const fz = kzx * (dx[j] as number) + kzz * (dz[j] as number) - px * u;
      if (fx === 0 && fz === 0) continue;
      for (let a = 0; a < path.length; a++) {
        const i = path[a] as number;
        tangent[i * count + j] =
          (tangent[i * count + j] as number) + fx * (dx[i] as number) + fz * (dz[i] as number);
      }
      if (thrustRow >= 0) tangent[thrustRow * count + j] = (tangent[thrustRow * count + j] as number) + fx;
    }
    for (let a = 0; a < path.length; a++) {
      const i = path[a] as number;
      residual[i] = (residual[i] as number) + out.fx * (dx[i] as number) + out.fz * (dz[i] as number);
      if (thrustRow >= 0) {
        const at = i * count + thrustRow;
        tangent[at] =
          (tangent[at] as number) + line.useByThrust * (pz * (dx[i] as number) - px * (dz[i] as number));
      }
      if (!turns[i]) continue;
      const s = sign[i] as number;
      for (let b = a; b < path.length; b++) {
        const j = path[b] as number;
        const bend = s * (out.fz * (dx[j] as number) - out.fx * (dz[j] as number));
        tangent[i * count + j] = (tangent[i * count + j] as number) + bend;
        if (a !== b) tangent[j * count + i] = (tangent[j * count + i] as number) + bend;
      }
    }
    if (thrustRow < 0) return;
    const at = thrustRow * count + thrustRow;
    residual[thrustRow] = (residual[thrustRow] as number) + out.fx;
    tangent[at] = (tangent[at] as number) + line.useByThrust * pz;
  }

  /** Puts the reaction of the drive torque (counter-clockwise on its bodies) into the rows of their turns. */
  #react(line: Line, to: Equations): void {
    if (this.#thrust.kind === 'parked') this.#reactOn(line, line.wheel.body, 1, to);
    else for (const { body, share } of line.wheel.reactions) this.#reactOn(line, body, share, to);
  }

  #reactOn(
    line: Line,
    body: number,
    share: number,
    { residual, tangent, count, thrustRow }: Equations,
  ): void {
    const { turns, sign, size } = this.#chain;
    const path = this.#chain.path[body] as Int32Array;
    for (let a = 0; a < path.length; a++) {
      const i = path[a] as number;
      if (!turns[i]) continue;
      const s = share * (sign[i] as number);
      residual[i] = (residual[i] as number) + s * line.out.torque;
      for (let j = 0; j < size; j++)
        tangent[i * count + j] = (tangent[i * count + j] as number) + s * (line.torqueBy[j] as number);
      if (thrustRow >= 0)
        tangent[i * count + thrustRow] = (tangent[i * count + thrustRow] as number) + s * line.torqueByThrust;
    }
  }
}

/** Station of one contact times its pressure, over k. */
function contactOf(touch: Touch, row: number, x: number): number {
  const fx = touch.fx[row] as number;
  const fz = touch.fz[row] as number;
  const square = fx * fx + fz * fz;
  const lever = square > 0 ? (touch.moment[row] as number) / Math.sqrt(square) : 0;
  return (touch.press[row] as number) * (x - (square > 0 ? fx / Math.sqrt(square) : 0) * lever);
}
