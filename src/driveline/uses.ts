import { column, type Recording } from '../../shared/recording.ts';
import type { LedgerLine, Report } from '../../shared/report.ts';
import { posesOf } from '../../sim/driveline/bends.ts';
import { chainOf, type DriveChain } from '../../sim/driveline/chain.ts';
import type { DrivePart } from '../../sim/driveline/driveline.ts';
import { type Kinematics, makeKinematics } from '../../sim/mechanism/kinematics.ts';
import type { Mechanism } from '../../sim/mechanism/mechanism.ts';
import type { Solved } from '../solved.ts';

/** What a part carries at one moment, SI, of ONE part. NaN: not known. */
export interface Now {
  /** Share of its limit: of the torque, or of the angle where that is nearer; NaN while one of them is not known. */
  readonly use: number;
  /** Its angle is past what it can take. */
  readonly bent: boolean;
  readonly torqueIn: number;
  readonly torqueOut: number;
  /** Greatest torque in a turn. */
  readonly peak: number;
  readonly limit: number;
  /** rad; joints only. */
  readonly angle: number | undefined;
  readonly mostAngle: number | undefined;
  /** A; motors only. */
  readonly current: number | undefined;
  /** rad/s at its output, at the target speed. */
  readonly speed: number;
}

/** Of torque and angle the one nearer to its limit; unknown where the torque's is, unless it bends too far. */
function nearerOf(torque: number, bend: number): number {
  if (Number.isNaN(bend)) return torque;
  if (Number.isNaN(torque)) return bend > 1 ? bend : torque;
  return Math.max(torque, bend);
}

/** What the parts of a drive line carry, frame by frame, as they are asked for. */
export class Uses {
  readonly #chain: DriveChain;
  readonly #torques: readonly Float64Array[];
  readonly #row: Float64Array;
  readonly #speed: Float64Array;
  readonly #k: Kinematics;
  readonly #poses: (k: Kinematics, frame: number) => void;
  readonly #places: ReadonlyMap<number, number>;
  readonly #forward: boolean;
  readonly #frames: number;

  constructor(mechanism: Mechanism, recording: Recording, chain: DriveChain) {
    this.#chain = chain;
    this.#torques = mechanism.wheels.map((_, w) => column(recording, 'torque', w));
    this.#row = new Float64Array(this.#torques.length);
    this.#speed = column(recording, 'speed');
    this.#k = makeKinematics(mechanism.bodies.length);
    this.#poses = posesOf(mechanism, recording);
    this.#places = new Map(chain.driveline.parts.map(({ index }, p) => [index, p]));
    this.#forward = mechanism.drive.speed >= 0;
    this.#frames = recording.frames;
  }

  /** Works out a frame; the last one beyond it. */
  show(frame: number): void {
    const at = Math.min(Math.max(0, frame), this.#frames - 1);
    this.#poses(this.#k, at);
    for (let w = 0; w < this.#row.length; w += 1) this.#row[w] = this.#torques[w]?.[at] as number;
    const speed = this.#speed[at] as number;
    const forward = speed === 0 ? this.#forward : speed > 0;
    this.#chain.solve(this.#row, forward ? 1 : -1, this.#k);
  }

  /** The part as it was built; undefined for one that could not be. */
  part(index: number): DrivePart | undefined {
    const p = this.#places.get(index);
    return p === undefined ? undefined : this.#chain.driveline.parts[p];
  }

  /** What a part (by its index in the document) carries in the frame shown last. */
  now(index: number): Now | undefined {
    const p = this.#places.get(index);
    const part = this.part(index);
    if (p === undefined || part === undefined) return undefined;
    const chain = this.#chain;
    const torque = chain.partUse(p);
    const bend = chain.angleUse(p);
    const angled = part.law.angled;
    return {
      use: nearerOf(torque, bend),
      bent: bend > 1,
      torqueIn: (chain.into[p] as number) / part.count,
      torqueOut: (chain.out[p] as number) / part.count,
      peak: chain.carries(p),
      limit: chain.limit(p)?.value ?? Number.NaN,
      angle: angled === undefined ? undefined : (chain.angle[p] as number),
      mostAngle: angled?.mostAngle,
      current: part.law.motor === undefined ? undefined : (chain.current[p] as number),
      speed: chain.speed[p] as number,
    };
  }
}

/** What the parts carry in a run; undefined for a run without a drive line or without torques. */
export function usesOf(solved: Pick<Solved, 'mechanism' | 'recording'> | undefined): Uses | undefined {
  if (solved === undefined || solved.recording.frames === 0) return undefined;
  const { mechanism, recording } = solved;
  const known = recording.columns.some(({ channel }) => channel === 'torque');
  const chain = known ? chainOf(mechanism) : undefined;
  return chain && new Uses(mechanism, recording, chain);
}

/** The worst of a part over a crossing: its share, null where that is not known, and the line that tells it. */
export interface Worst {
  readonly use: number | null;
  readonly line: LedgerLine;
}

const indexIn = ({ path }: LedgerLine): number | undefined => {
  const found = /^vehicle\.driveline\.parts\[(\d+)\]/.exec(path ?? '');
  return found === null ? undefined : Number(found[1]);
};

/** The line that tells most of a part: the one most over its limit, else one whose limit is not known, else the nearest. */
function mostTelling(lines: readonly LedgerLine[]): LedgerLine | undefined {
  const nearest = [...lines].sort((a, b) => (b.use ?? 0) - (a.use ?? 0))[0];
  if (nearest?.use !== undefined && nearest.use !== null && nearest.use > 1) return nearest;
  return lines.find(({ use }) => use === null) ?? nearest;
}

/** The worst of every part over a run, by its index in the document: unknown where its torque is, unless it bends too far. */
export function worstOf(report: Pick<Report, 'ledger'> | undefined): ReadonlyMap<number, Worst> {
  const lines = report?.ledger?.lines ?? [];
  const found = new Map<number, Worst>();
  for (const index of new Set(lines.flatMap((line) => indexIn(line) ?? []))) {
    const line = mostTelling(lines.filter((each) => indexIn(each) === index));
    if (line !== undefined) found.set(index, { use: line.use, line });
  }
  return found;
}
