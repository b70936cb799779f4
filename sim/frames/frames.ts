import { columnHeads, type RecordedNames, type Recording } from '../../shared/recording.ts';
import { motorsOf } from '../driveline/metered.ts';
import type { JointForces } from '../joints/forces.ts';
import { carryingJoints, memberLines } from '../joints/line.ts';
import type { Mechanism } from '../mechanism/mechanism.ts';

/** One instant of a run, as the channels of a recording want it; SI. Arrays are read at once and may be reused. */
export interface Snapshot {
  /** Values of the `run` channels in their order. */
  readonly run: {
    readonly time: number;
    readonly station: number;
    readonly speed: number;
    readonly pitch: number;
    readonly heaveAcceleration: number;
    readonly clearance: number;
    readonly work: number;
    readonly energy: number;
    readonly lost: number;
  };
  /** Frames of all bodies. */
  readonly x: ArrayLike<number>;
  readonly z: ArrayLike<number>;
  readonly angle: ArrayLike<number>;
  readonly wheels: readonly WheelSnapshot[];
  /** Travel coordinates of all members. */
  readonly motions: ArrayLike<number>;
  /** Motors of the drive line, in the order of `namesOf`; none when left out. */
  readonly sources?: readonly SourceSnapshot[];
}

/** The motors of a part in an instant. Current of ONE, A; not a number where it is not known. */
export interface SourceSnapshot {
  readonly torque: number;
  readonly speed: number;
  readonly current: number;
}

/** One axle line in an instant. */
export interface WheelSnapshot {
  readonly wheelStation: number;
  readonly load: number;
  readonly normal: number;
  readonly thrust: number;
  readonly gripUse: number;
  readonly torque: number;
  readonly roll: number;
  readonly travel: number;
  readonly depth: number;
  readonly gap: number;
}

const runChannels = [
  'time',
  'station',
  'speed',
  'pitch',
  'heaveAcceleration',
  'clearance',
  'work',
  'energy',
  'lost',
] as const;
const wheelChannels = [
  'wheelStation',
  'load',
  'normal',
  'thrust',
  'gripUse',
  'torque',
  'roll',
  'travel',
  'depth',
  'gap',
] as const;

/** Names of what the columns are about. */
export function namesOf(mechanism: Mechanism): RecordedNames {
  const names = (list: readonly { readonly name: string }[]) => list.map(({ name }) => name);
  return {
    bodies: names(mechanism.bodies),
    wheels: names(mechanism.wheels),
    members: names(mechanism.members),
    elements: names(mechanism.elements),
    joints: names(carryingJoints(mechanism).map(({ joint }) => joint)),
    rods: names(mechanism.rods),
    beams: names(memberLines(mechanism)),
    ...motorNames(mechanism),
  };
}

/** Motors, and those whose current is known; nothing for a vehicle without a drive line. */
function motorNames({ driveline }: Mechanism): Pick<RecordedNames, 'sources' | 'metered'> {
  if (driveline === undefined) return {};
  const motors = motorsOf(driveline);
  const names = (list: typeof motors) => list.map(({ part }) => part.name);
  return { sources: names(motors), metered: names(motors.filter(({ metered }) => metered)) };
}

/** Collects frames row by row and packs them into columns at the end. */
export class Frames {
  readonly columns: Recording['columns'];
  readonly #rows: Float64Array[] = [];
  readonly #withForces: boolean;

  /** `forces`: whether the forces in joints and members are recorded too. */
  constructor(mechanism: Mechanism, forces: boolean) {
    this.columns = columnHeads(namesOf(mechanism), forces);
    this.#withForces = forces;
  }

  get count(): number {
    return this.#rows.length;
  }

  /** Adds a frame: channels in the order of the channel table, each over all its names. */
  add(snapshot: Snapshot): void {
    const row = new Float64Array(this.columns.length);
    let at = 0;
    for (const channel of runChannels) row[at++] = snapshot.run[channel];
    for (const list of [snapshot.x, snapshot.z, snapshot.angle]) {
      row.set(list, at);
      at += list.length;
    }
    for (const channel of wheelChannels) for (const wheel of snapshot.wheels) row[at++] = wheel[channel];
    row.set(snapshot.motions, at);
    at += snapshot.motions.length;
    const sources = snapshot.sources ?? [];
    for (const { torque } of sources) row[at++] = torque;
    for (const { speed } of sources) row[at++] = speed;
    for (const { current } of sources) if (!Number.isNaN(current)) row[at++] = current;
    this.#rows.push(row);
  }

  /**
   * Writes the forces in joints and members into the frame that was added last; the channel table ends with them.
   * Returns whether all of them are finite.
   */
  addForces(forces: JointForces): boolean {
    const row = this.#rows.at(-1);
    if (row === undefined || !this.#withForces) return true;
    const { given } = forces;
    const lists = [
      given.groundX,
      given.groundZ,
      given.travel,
      given.effort,
      forces.pinX,
      forces.pinZ,
      forces.pinMoment,
      given.tension,
      forces.axial,
      forces.shear,
      forces.bending,
      forces.bendingAt,
    ];
    const start = row.length - lists.reduce((sum, list) => sum + list.length, 1);
    let at = start;
    row[at++] = forces.residual;
    for (const list of lists) {
      row.set(list, at);
      at += list.length;
    }
    return row.subarray(start).every(Number.isFinite);
  }

  /** Takes the frame that was added last away again. */
  drop(): void {
    this.#rows.pop();
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
