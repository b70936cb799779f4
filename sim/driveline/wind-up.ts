import { column, type Recording } from '../../shared/recording.ts';
import type { Moment } from '../../shared/report.ts';
import type { Mechanism, Wheel } from '../mechanism/mechanism.ts';
import type { Driveline, DrivePart } from './driveline.ts';
import { type Tied, tiedLines } from './tied.ts';

/** What a group of axle lines that turn alike winds up over uneven ground. */
export interface WindUp {
  readonly lines: readonly WoundLine[];
  /** Parts between them, at the torque that wind-up alone brings, the greatest first. */
  readonly parts: readonly {
    readonly of: string;
    readonly path: string;
    /** N·m, all equal ones together, a size; share of the rating, null where that is not known. */
    readonly torque: number;
    readonly use: number | null;
    readonly moment: Moment;
  }[];
}

/** The worst of one axle line. */
export interface WoundLine {
  readonly of: string;
  /** Torque that wind-up adds there, N·m, a size. */
  readonly torque: number;
  /** Whether its tyres slip there, so that grip bounds it. */
  readonly slips: boolean;
  readonly moment: Moment;
}

/**
 * Wind-up of axle lines that a drive line ties together, over a crawl. Each wheel rolls the way of its own ground; what
 * turns alike can't, so shafts and tyres twist until a tyre slips. Twist of line i: Φ·g_i − φ_i − s_i = Σ C_ij·T_j with
 * Φ the turn of the part that all hang on, g the gears, φ the rolled angle (against the bodies that take the reaction),
 * s what has slipped and C the compliance; Σ g_i·T_i = 0; and no tyre holds more than grip times its load, drive torque
 * counted in. Starts free of wind-up. Source: definition of our own, from equilibrium of torsional springs in a tree.
 */
export function windUpOf(mechanism: Mechanism, recording: Recording): WindUp[] {
  const { driveline, wheels } = mechanism;
  if (driveline === undefined || recording.frames === 0) return [];
  return tiedLines(driveline, wheels).map((tied) => {
    const winding = new Winding(tied, mechanism, recording);
    for (let frame = 0; frame < recording.frames; frame++) winding.to(frame);
    return winding.worst(driveline, wheels);
  });
}

/** One group on its way over a recording. */
class Winding {
  readonly #tied: Tied;
  readonly #recording: Recording;
  readonly #wheels: readonly Wheel[];
  readonly #rolled: readonly Float64Array[];
  readonly #normal: readonly Float64Array[];
  readonly #drive: readonly Float64Array[];
  /** Torque, what has slipped (rad), bounds of the torque; per line. */
  readonly #torque: Float64Array;
  readonly #slipped: Float64Array;
  readonly #least: Float64Array;
  readonly #most: Float64Array;
  readonly #wanted: Float64Array;
  readonly #worst: { torque: number; slips: boolean; frame: number }[];
  readonly #parts: { torque: number; frame: number }[];

  constructor(tied: Tied, mechanism: Mechanism, recording: Recording) {
    const row = () => new Float64Array(tied.lines.length);
    this.#tied = tied;
    this.#recording = recording;
    this.#wheels = tied.lines.map((w) => mechanism.wheels[w] as Wheel);
    this.#rolled = tied.lines.map((w) => rolledOf(mechanism, recording, w));
    this.#normal = tied.lines.map((w) => column(recording, 'normal', w));
    this.#drive = tied.lines.map((w) => column(recording, 'torque', w));
    [this.#torque, this.#slipped, this.#least, this.#most, this.#wanted] = [
      row(),
      row(),
      row(),
      row(),
      row(),
    ];
    this.#worst = tied.lines.map(() => ({ torque: 0, slips: false, frame: 0 }));
    this.#parts = tied.parts.map(() => ({ torque: 0, frame: 0 }));
  }

  /** Goes on to a frame. */
  to(frame: number): void {
    const { lines, gears, slips } = this.#tied;
    for (let i = 0; i < lines.length; i++) {
      const { tyre, radius } = this.#wheels[i] as Wheel;
      const hold = tyre.grip * ((this.#normal[i] as Float64Array)[frame] as number) * radius;
      const drive = (this.#drive[i] as Float64Array)[frame] as number;
      const slip = slips[i] as number;
      this.#least[i] = Math.max(Math.min(-hold - drive, 0), -slip);
      this.#most[i] = Math.min(Math.max(hold - drive, 0), slip);
    }
    const turned = this.#balanced(frame);
    for (let i = 0; i < lines.length; i++) {
      const left = turned * (gears[i] as number) - this.#wish(i, frame) - this.#twist(i);
      const slips = Math.abs(left) > 1e-12;
      this.#slipped[i] = (this.#slipped[i] as number) + left;
      const torque = Math.abs(this.#torque[i] as number);
      if (torque > (this.#worst[i]?.torque ?? 0)) this.#worst[i] = { torque, slips, frame };
    }
    this.#tied.parts.forEach(({ gain }, n) => {
      let sum = 0;
      for (let i = 0; i < lines.length; i++) sum += (gain[i] as number) * (this.#torque[i] as number);
      if (Math.abs(sum) > (this.#parts[n]?.torque ?? 0)) this.#parts[n] = { torque: Math.abs(sum), frame };
    });
  }

  /** Where line i would be without twist: what it rolled and what it slipped. */
  #wish(i: number, frame: number): number {
    return ((this.#rolled[i] as Float64Array)[frame] as number) + (this.#slipped[i] as number);
  }

  #twist(i: number): number {
    const row = this.#tied.compliance[i] as Float64Array;
    let sum = 0;
    for (let j = 0; j < row.length; j++) sum += (row[j] as number) * (this.#torque[j] as number);
    return sum;
  }

  /** Finds the turn of the common part at which the torques balance; leaves them in `#torque`. */
  #balanced(frame: number): number {
    const { gears } = this.#tied;
    const at = gears.map((gear, i) => this.#wish(i, frame) / gear);
    // all twisted one way at the ends of this range, so that the balance lies within it
    const reach = Math.max(...at) - Math.min(...at);
    let [low, high] = [Math.min(...at) - reach, Math.max(...at) + reach];
    for (let n = 0; n < 60 && high > low; n++) {
      const middle = (low + high) / 2;
      if (middle === low || middle === high) break;
      if (this.#sum(middle, frame) > 0) high = middle;
      else low = middle;
    }
    const found = (low + high) / 2;
    this.#sum(found, frame);
    return found;
  }

  /** Torques within their bounds for a turn of the common part (projected Gauss–Seidel); returns Σ g·T. */
  #sum(turned: number, frame: number): number {
    const { gears, compliance } = this.#tied;
    for (let i = 0; i < gears.length; i++)
      this.#wanted[i] = turned * (gears[i] as number) - this.#wish(i, frame);
    for (let sweep = 0; sweep < 30; sweep++) {
      let moved = 0;
      for (let i = 0; i < gears.length; i++) {
        const own = (compliance[i] as Float64Array)[i] as number;
        const before = this.#torque[i] as number;
        const free = before + ((this.#wanted[i] as number) - this.#twist(i)) / own;
        const kept = Math.min(this.#most[i] as number, Math.max(this.#least[i] as number, free));
        this.#torque[i] = kept;
        moved = Math.max(moved, Math.abs(kept - before) * own);
      }
      if (moved < 1e-12) break;
    }
    let sum = 0;
    for (let i = 0; i < gears.length; i++) sum += (gears[i] as number) * (this.#torque[i] as number);
    return sum;
  }

  worst({ parts }: Driveline, wheels: readonly Wheel[]): WindUp {
    const moment = (frame: number): Moment => ({
      frame,
      time: column(this.#recording, 'time')[frame] ?? 0,
      station: column(this.#recording, 'station')[frame] ?? 0,
    });
    const lines = this.#worst.map(({ torque, slips, frame }, i) => ({
      of: wheels[this.#tied.lines[i] as number]?.name ?? '',
      torque,
      slips,
      moment: moment(frame),
    }));
    const loaded = this.#parts.map(({ torque, frame }, n) => {
      const part = parts[this.#tied.parts[n]?.part ?? -1] as DrivePart;
      const limit = part.rating === undefined ? undefined : part.rating.torque * part.count;
      return {
        of: part.name,
        path: `vehicle.driveline.parts[${part.index}]`,
        torque,
        use: limit === undefined ? null : torque / limit,
        moment: moment(frame),
      };
    });
    return { lines, parts: loaded.sort((a, b) => b.torque - a.torque) };
  }
}

/** Angle that a line has rolled against the bodies that take its reaction, rad, in every frame. */
function rolledOf({ wheels }: Mechanism, recording: Recording, w: number): Float64Array {
  const rolled = Float64Array.from(column(recording, 'roll', w));
  const start = rolled[0] ?? 0;
  const bodies = (wheels[w] as Wheel).reactions.map(({ body, share }) => ({
    share,
    angle: column(recording, 'angle', body),
  }));
  return rolled.map((roll, frame) =>
    bodies.reduce(
      (sum, { share, angle }) => sum + share * ((angle[frame] as number) - (angle[0] as number)),
      roll - start,
    ),
  );
}
