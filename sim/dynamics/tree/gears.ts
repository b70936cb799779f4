import type { DrivePart } from '../../driveline/driveline.ts';
import type { Kinematics } from '../../mechanism/kinematics.ts';
import { mostChanges } from './branch.ts';

/** A part of the drive line in a row of gears. */
export interface Geared {
  readonly part: DrivePart;
  /** Index of the part in the drive line. */
  readonly index: number;
  /** Turn rate of its input and its output, against its housing, for one of the housing; 0 where the shaft lies lengthwise. */
  readonly into: number;
  readonly out: number;
  /** Torque at its output, N·m. */
  torque: number;
}

/**
 * Parts one after the other, with nothing that branches off between them: one ratio, and friction that takes its share
 * of the torque in the direction in which power flows. Where power would turn round it holds still: its friction carries
 * what lies between driving and being driven (a worm: everything).
 */
export class Gears {
  readonly parts: readonly Geared[];
  readonly ratio: number;
  readonly driving: number;
  readonly backDriving: number;
  /** Speed in = ratio · speed out + shift, rad/s: housings that turn. */
  shift = 0;
  /** Speed in at which the first part's input stands still against its housing. */
  still = 0;
  /** Power passes on, comes back, or nothing turns; or no state fits, and it passes everything on for a substep. */
  flow: 'on' | 'back' | 'held' | 'whole' = 'on';
  #triedOn = false;
  #triedBack = false;
  #changes = 0;
  #k: Kinematics | undefined;

  /** `parts` from the source on. */
  constructor(parts: readonly Geared[]) {
    const product = (of: (p: DrivePart) => number) => parts.reduce((all, { part }) => all * of(part), 1);
    this.parts = parts;
    this.ratio = product(({ law }) => law.ratio);
    this.driving = product(({ law }) => law.driving);
    this.backDriving = product(({ law }) => (law.oneWay ? 1 : law.backDriving));
  }

  begin(k: Kinematics, ahead: Float64Array): void {
    this.#k = k;
    this.#changes = 0;
    if (this.flow === 'whole') this.flow = 'on';
    this.#triedOn = this.flow === 'on';
    this.#triedBack = this.flow === 'back';
    this.shift = 0;
    let above = this.ratio;
    for (let i = this.parts.length - 1; i >= 0; i--) {
      const { part, into, out } = this.parts[i] as Geared;
      above /= part.law.ratio;
      this.shift += above * (part.law.ratio * out - into) * (ahead[part.body] as number);
    }
    const first = this.parts[0];
    this.still = first === undefined ? 0 : -first.into * (ahead[first.part.body] as number);
  }

  /** Torque in over torque out while power flows that way. */
  get share(): number {
    if (this.flow === 'whole') return 1 / this.ratio;
    return (this.flow === 'back' ? this.backDriving : 1 / this.driving) / this.ratio;
  }

  get lossless(): boolean {
    return this.driving === 1 && this.backDriving === 1;
  }

  /** Whether the flow of power fits torques (N·m) and the speed in, rad/s; it is changed when it does not. */
  settle(torqueIn: number, torqueOut: number, speedIn: number): boolean {
    if (this.lossless || this.flow === 'whole') return true;
    if (this.#fits(torqueIn, torqueOut, speedIn)) return true;
    if (++this.#changes > mostChanges) this.flow = 'whole';
    return false;
  }

  #fits(torqueIn: number, torqueOut: number, speedIn: number): boolean {
    if (this.flow === 'held') {
      const carried = torqueIn * this.ratio;
      const most = torqueOut >= 0 ? torqueOut / this.driving : torqueOut * this.backDriving;
      const least = torqueOut >= 0 ? torqueOut * this.backDriving : torqueOut / this.driving;
      if (carried >= least && carried <= most) return true;
      // more than it holds: moves forward; less: moves back
      this.flow = carried > most === torqueOut >= 0 ? 'on' : 'back';
      return false;
    }
    const power = torqueOut * (speedIn - this.still);
    if (this.flow === 'on' ? power >= 0 : power <= 0) return true;
    if (this.flow === 'on') this.flow = this.#triedBack ? 'held' : 'back';
    else this.flow = this.#triedOn ? 'held' : 'on';
    this.#triedOn ||= this.flow === 'on';
    this.#triedBack ||= this.flow === 'back';
    return false;
  }

  /** Writes torques along the row, and returns the power that it loses, W. `speedOut` of its last output. */
  lose(torqueIn: number, torqueOut: number, speedOut: number): number {
    const held =
      this.flow === 'held' ? Math.max(0, torqueOut === 0 ? 1 : (torqueIn * this.ratio) / torqueOut) : 1;
    const each = held === 1 ? 1 : held ** (1 / this.parts.length);
    let [torque, speed, lost] = [torqueOut, speedOut, 0];
    for (let i = this.parts.length - 1; i >= 0; i--) {
      const geared = this.parts[i] as Geared;
      const { law, body } = geared.part;
      const spin = this.#k?.spin[body] ?? 0;
      const back = law.oneWay ? 1 : law.backDriving;
      const share =
        this.flow === 'held' || this.flow === 'whole' ? each : this.flow === 'back' ? back : 1 / law.driving;
      const against = speed + geared.out * spin;
      geared.torque = torque;
      lost += torque * (share - 1) * against;
      torque *= share / law.ratio;
      speed = law.ratio * against - geared.into * spin;
    }
    return lost;
  }
}
