import { columnHeads, type Recording } from '../../shared/recording.ts';
import type { Mechanism } from '../mechanism/mechanism.ts';
import { distanceToGround } from '../tyre/touch.ts';
import { clearanceOf } from './clearance.ts';
import type { Plant } from './plant.ts';
import { hubTravel } from './settle.ts';

/** Energy at the start of the drive, which the energy column is held against, J. */
export interface Account {
  readonly energy: number;
}

/** Collects frames row by row and packs them into columns at the end. */
export class Frames {
  readonly columns: Recording['columns'];
  readonly #rows: Float64Array[] = [];
  readonly #row: Float64Array;
  #lastSpeed = 0;
  #lastTime = Number.NaN;

  constructor(mechanism: Mechanism) {
    this.columns = columnHeads(namesOf(mechanism));
    this.#row = new Float64Array(this.columns.length);
  }

  get count(): number {
    return this.#rows.length;
  }

  /** Adds the plant's present state as a frame at `time`, s. */
  add(plant: Plant, time: number, account: Account): void {
    let at = 0;
    const put = (value: number) => {
      this.#row[at++] = value;
    };
    this.#putRun(plant, time, account, put);
    for (const of of [plant.k.x, plant.k.z, plant.k.angle])
      for (let i = 0; i < of.length; i++) put(of[i] as number);
    this.#putWheels(plant, put);
    for (const gauge of plant.members) {
      gauge?.read(plant.k);
      put(gauge?.x ?? 0);
    }
    this.#rows.push(this.#row.slice());
  }

  #putRun(plant: Plant, time: number, account: Account, put: (value: number) => void): void {
    const { k } = plant;
    const reference = plant.reference();
    const vertical = k.vz[0] as number;
    const since = time - this.#lastTime;
    put(time);
    put(reference.x);
    put(reference.speed);
    put(k.angle[0] as number);
    put(since > 0 ? (vertical - this.#lastSpeed) / since : 0);
    put(clearanceOf(plant));
    put(plant.work);
    put(energyOf(plant) - account.energy);
    put(plant.lost);
    this.#lastSpeed = vertical;
    this.#lastTime = time;
  }

  /** Rows in the order of the channel table: each channel over all wheels. */
  #putWheels(plant: Plant, put: (value: number) => void): void {
    const { wheels } = plant;
    for (const w of wheels) put(w.line.station);
    // where friction at a steep face pulls a wheel down, the wheel carries nothing
    for (const w of wheels) put(Math.max(0, w.line.fz));
    for (const w of wheels) put(w.line.normal);
    for (const w of wheels) put(w.line.thrust);
    for (const w of wheels) put(gripUseOf(w));
    for (const w of wheels) put(w.torque);
    for (const w of wheels) put(w.roll);
    for (const w of wheels) put(hubTravel(plant, w.wheel.body, w.wheel.hub.x, w.wheel.hub.z));
    for (const w of wheels) put(w.line.depth);
    for (const w of wheels) put(w.line.normal > 0 ? 0 : gapOf(plant, w));
  }

  /** All frames in one block, column after column. */
  pack(): { readonly frames: number; readonly block: Float64Array } {
    const frames = this.#rows.length;
    const width = this.columns.length;
    const block = new Float64Array(frames * width);
    for (let f = 0; f < frames; f++) {
      const row = this.#rows[f] as Float64Array;
      for (let c = 0; c < width; c++) block[c * frames + f] = row[c] as number;
    }
    return { frames, block };
  }
}

/** Names of what the columns are about. */
export function namesOf(mechanism: Mechanism): Pick<Recording, 'bodies' | 'wheels' | 'members'> {
  return {
    bodies: mechanism.bodies.map((b) => b.name),
    wheels: mechanism.wheels.map((w) => w.name),
    members: mechanism.members.map((m) => m.name),
  };
}

/** Energy of motion, height and everything stored, J. */
export function energyOf(plant: Plant): number {
  return plant.kinetic() + plant.height() + plant.storedInElements() + plant.storedInTyres();
}

/** Tangential force over what grip allows; 0 off the ground or without grip. */
export function gripUseOf({ line, wheel }: Plant['wheels'][number]): number {
  const limit = wheel.tyre.grip * line.normal;
  return limit > 0 ? Math.min(1, line.rub / limit) : 0;
}

/** Distance of a tyre from the ground, m, never below zero; looked for within ten radii. */
export function gapOf(plant: Plant, { line, wheel }: Plant['wheels'][number]): number {
  return Math.max(0, distanceToGround(plant.ground, line.x, line.z, 10 * wheel.radius) - wheel.radius);
}
