import type { EventPlace, RunEvent } from '../../shared/recording.ts';
import type { Plant } from './plant.ts';
import type { DriveTree } from './tree/drive-tree.ts';
import type { Motor } from './tree/motor.ts';

/** Speed over that without load below which a motor stands, and share of what it can give there that is a load. */
const stands = 0.01;
const loaded = 0.5;

/** Whether a motor stands under load, though it is asked to turn. */
export const stalls = (motor: Motor): boolean =>
  Math.abs(motor.speed) < stands * motor.law.noLoadSpeed &&
  Math.abs(motor.torque) > loaded * Math.min(motor.most, motor.part.count * motor.law.stallTorque);

/** Whether a motor gives all that it has at its speed: full throttle, or its current limit. */
export const spent = (motor: Motor, tree: DriveTree): boolean =>
  motor.capped !== 0 || Math.abs(tree.throttle) >= 1;

/** Something that lasts for a while and is told when it begins; and again when it had been over for as long. */
class Spell {
  #since = Number.NaN;
  #last = -1e9;
  #told = false;

  /** Whether this is news: `on` now, for `patience` s by now, and not told since it was off for `calm` s. */
  begins(on: boolean, time: number, patience: number, calm: number): boolean {
    if (!on) {
      this.#since = Number.NaN;
      if (time - this.#last > calm) this.#told = false;
      return false;
    }
    if (Number.isNaN(this.#since)) this.#since = time;
    this.#last = time;
    if (this.#told || time - this.#since < patience) return false;
    this.#told = true;
    return true;
  }
}

/** Looks at the drive line after every substep and notes what happens to its parts. */
export class DriveWatch {
  readonly #tree: DriveTree;
  readonly #calm: number;
  readonly #stalls: readonly Spell[];
  readonly #caps: readonly Spell[];
  readonly #slips: readonly Spell[];
  readonly #skips: readonly Spell[];

  /** `calm`: s after which the same thing is news again. */
  constructor(tree: DriveTree, calm: number) {
    const spells = (list: readonly unknown[]) => list.map(() => new Spell());
    this.#tree = tree;
    this.#calm = calm;
    this.#stalls = spells(tree.motors);
    this.#caps = spells(tree.motors);
    this.#slips = spells(tree.built.slipping);
    this.#skips = spells(tree.built.geared);
  }

  /** Adds what begins now to the events. A motor stalls when it has stood for five times the calm. */
  look(plant: Plant, time: number, events: RunEvent[]): void {
    const { motors, built } = this.#tree;
    const calm = this.#calm;
    const at = (): EventPlace => ({ time, station: plant.reference().x });
    for (let i = 0; i < motors.length; i++) {
      const motor = motors[i] as Motor;
      if (this.#stalls[i]?.begins(stalls(motor), time, 5 * calm, calm))
        events.push({ kind: 'stall', ...at(), part: motor.part.name });
      if (this.#caps[i]?.begins(motor.capped !== 0, time, 0, calm))
        events.push({ kind: 'current-limit', ...at(), part: motor.part.name });
    }
    for (let i = 0; i < built.slipping.length; i++) {
      const { part, coupling } = built.slipping[i] as (typeof built.slipping)[number];
      if (this.#slips[i]?.begins(coupling.slips, time, 0, calm))
        events.push({ kind: 'slip', ...at(), part: part.name });
    }
    for (let i = 0; i < built.geared.length; i++) {
      const { part, torque } = built.geared[i] as (typeof built.geared)[number];
      if (part.sort !== 'gear' || part.rating === undefined) continue;
      const rating = part.rating.torque * part.count;
      if (this.#skips[i]?.begins(Math.abs(torque) > rating, time, 0, calm))
        events.push({ kind: 'skip', ...at(), part: part.name, torque: Math.abs(torque), rating });
    }
  }
}
