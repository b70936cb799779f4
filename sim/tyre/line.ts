import type { Ground } from '../ground/ground.ts';
import { type Kinematics, type Loads, pushAt } from '../mechanism/kinematics.ts';
import type { Wheel } from '../mechanism/mechanism.ts';
import { findTouch, makeTouch, maxPatches, type Touch } from './touch.ts';

/** How an axle line meets the ground in a substep. */
export interface TyreMode {
  /** Tangential forces and rolling resistance act. Off while the vehicle is set down. */
  readonly friction: boolean;
  /** Damping acts. Off while the vehicle is set down. */
  readonly damping: boolean;
}

/**
 * The tyres of one axle line at work: contacts, bristles, forces. Friction is one bristle per patch: a spring σ and a
 * damper that the slip stretches, let go at the grip limit (as in elastic-slip friction laws). The slip is taken from
 * the change of positions, not from speeds, so a parked wheel does not creep.
 */
export class TyreLine {
  readonly wheel: Wheel;
  readonly touch: Touch = makeTouch();
  /** Hub in the world, m. */
  x = 0;
  z = 0;
  /** Sums over all patches: force on the hub (N), scalar normal and tangential force (N), forward friction (N). */
  fx = 0;
  fz = 0;
  normal = 0;
  thrust = 0;
  rub = 0;
  /** Moment of friction about the hub, N·m, against forward roll. */
  drag = 0;
  /** Greatest depth, m, and station of the contact, m. */
  depth = 0;
  station = 0;
  /** Energy stored in tyre and bristles, J, and lost in this substep, J. */
  stored = 0;
  lost = 0;
  #patches = 0;
  #px = new Float64Array(maxPatches);
  #pz = new Float64Array(maxPatches);
  #stretch = new Float64Array(maxPatches);
  #oldPatches = 0;
  #oldPx = new Float64Array(maxPatches);
  #oldPz = new Float64Array(maxPatches);
  #oldStretch = new Float64Array(maxPatches);
  #lastX = Number.NaN;
  #lastZ = 0;

  constructor(wheel: Wheel) {
    this.wheel = wheel;
  }

  /** Forgets bristles and the last hub position. */
  forget(): void {
    this.#patches = 0;
    this.#lastX = Number.NaN;
  }

  /**
   * Finds the contacts at the bodies' present motion, adds their forces to the carrier and sets the figures above.
   * `rolled`: change of the roll angle since the last call, rad, forward positive; `h`: s.
   */
  meet(ground: Ground, k: Kinematics, loads: Loads, rolled: number, h: number, mode: TyreMode): void {
    const { body, hub, radius, tyre } = this.wheel;
    const c = k.cos[body] as number;
    const s = k.sin[body] as number;
    this.x = (k.x[body] as number) + c * hub.x - s * hub.z;
    this.z = (k.z[body] as number) + s * hub.x + c * hub.z;
    findTouch(this.touch, ground, this.x, this.z, radius);
    this.#clear();
    this.stored = tyre.foundation * this.touch.energy;
    const spin = k.spin[body] as number;
    const vx = (k.vx[body] as number) - spin * (this.z - (k.cz[body] as number));
    const vz = (k.vz[body] as number) + spin * (this.x - (k.cx[body] as number));
    this.#keepPatches();
    const mx = Number.isNaN(this.#lastX) ? 0 : this.x - this.#lastX;
    const mz = Number.isNaN(this.#lastX) ? 0 : this.z - this.#lastZ;
    for (let row = 0; row < this.touch.count; row++) this.#press(row, vx, vz, mx, mz, rolled, h, mode);
    this.#dropOld();
    this.#lastX = this.x;
    this.#lastZ = this.z;
    if (this.normal > 0) this.station /= this.normal;
    else this.station = this.x;
    pushAt(loads, k, body, this.fx, this.fz, this.x, this.z);
  }

  #clear(): void {
    this.fx = 0;
    this.fz = 0;
    this.normal = 0;
    this.thrust = 0;
    this.rub = 0;
    this.drag = 0;
    this.depth = 0;
    this.station = 0;
    this.lost = 0;
  }

  /** The patches of the last substep become the old ones, to be matched by their place on the ground. */
  #keepPatches(): void {
    [this.#px, this.#oldPx] = [this.#oldPx, this.#px];
    [this.#pz, this.#oldPz] = [this.#oldPz, this.#pz];
    [this.#stretch, this.#oldStretch] = [this.#oldStretch, this.#stretch];
    this.#oldPatches = this.#patches;
    this.#patches = 0;
  }

  /** One patch: normal force with damping, friction by its bristle. */
  #press(
    row: number,
    vx: number,
    vz: number,
    mx: number,
    mz: number,
    rolled: number,
    h: number,
    mode: TyreMode,
  ): void {
    const { tyre, radius } = this.wheel;
    const tx0 = this.touch.fx[row] as number;
    const tz0 = this.touch.fz[row] as number;
    const size = Math.sqrt(tx0 * tx0 + tz0 * tz0);
    if (!(size > 0)) return;
    const nx = tx0 / size;
    const nz = tz0 / size;
    const lever = (this.touch.moment[row] as number) / size;
    const elastic = tyre.foundation * size;
    const closing = -(vx * nx + vz * nz);
    // a tyre never pulls, and never pushes more than four times its spring
    const factor = mode.damping ? Math.min(4, Math.max(0, 1 + tyre.damping * closing)) : 1;
    const normal = elastic * factor;
    this.lost += (normal - elastic) * closing * h;
    this.fx += normal * nx;
    this.fz += normal * nz;
    this.normal += normal;
    this.station += normal * (this.x - nx * lever);
    this.depth = Math.max(this.depth, this.touch.depth[row] as number);
    if (!mode.friction) return;
    const px = this.x - nx * lever;
    const pz = this.z - nz * lever;
    const before = this.#match(px, pz, 0.5 * radius);
    const moved = mx * nz - mz * nx - rolled * lever;
    this.#rub(px, pz, nx, nz, lever, normal, before, moved, h);
  }

  /** Friction of one patch: `before` is the bristle's stretch so far, `moved` the slip of this substep, both m. */
  #rub(
    px: number,
    pz: number,
    nx: number,
    nz: number,
    lever: number,
    normal: number,
    before: number,
    moved: number,
    h: number,
  ): void {
    const { tyre } = this.wheel;
    const limit = tyre.grip * normal;
    let stretch = before + moved;
    let force = -(tyre.shearStiffness * stretch + (tyre.shearDamping * moved) / h);
    if (Math.abs(force) > limit) {
      force = Math.sign(force) * limit;
      const most = limit / tyre.shearStiffness;
      stretch = Math.max(-most, Math.min(most, stretch));
    }
    const kept = 0.5 * tyre.shearStiffness * stretch * stretch;
    this.lost += -force * moved - (kept - 0.5 * tyre.shearStiffness * before * before);
    this.stored += kept;
    this.fx += force * nz;
    this.fz -= force * nx;
    this.thrust += force;
    this.rub += Math.abs(force);
    this.drag += force * lever;
    const row = this.#patches++;
    this.#px[row] = px;
    this.#pz[row] = pz;
    this.#stretch[row] = stretch;
  }

  /** Stretch of the old patch nearest to a place on the ground, within `reach` m, which is then taken; 0 if none. */
  #match(px: number, pz: number, reach: number): number {
    let best = -1;
    let least = reach * reach;
    for (let row = 0; row < this.#oldPatches; row++) {
      const dx = px - (this.#oldPx[row] as number);
      const dz = pz - (this.#oldPz[row] as number);
      const square = dx * dx + dz * dz;
      if (square < least) {
        best = row;
        least = square;
      }
    }
    if (best < 0) return 0;
    const stretch = this.#oldStretch[best] as number;
    this.#oldPx[best] = Number.POSITIVE_INFINITY;
    this.#oldStretch[best] = 0;
    return stretch;
  }

  /** Bristles whose patch is gone let go: what they stored is lost. */
  #dropOld(): void {
    for (let row = 0; row < this.#oldPatches; row++) {
      this.lost += 0.5 * this.wheel.tyre.shearStiffness * (this.#oldStretch[row] as number) ** 2;
      this.#oldStretch[row] = 0;
    }
    this.#oldPatches = 0;
  }
}
