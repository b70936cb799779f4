import type { Problem } from './problem.ts';
import type { RunEnd, RunEvent } from './recording.ts';

/** A figure of a whole run, with what it means and where it comes from. */
export interface Measure {
  /** Name in JSON, camelCase: `leastLoadShare`. */
  readonly name: string;
  /** Title for people. */
  readonly title: string;
  /** Definition in one sentence. */
  readonly says: string;
  /** Published source, or 'common practice, no source', or 'definition of our own'. */
  readonly source: string;
  /** SI unit of value; '1' for shares. */
  readonly unit: string;
  /** null when the run has nothing to measure it on (no bogie, no belly line). */
  readonly value: number | null;
  /** Wheel, member or body that it belongs to. */
  readonly of?: string;
  /** Where it was reached. */
  readonly moment?: Moment;
}

/** A moment of a run: frame, time s, the vehicle's station m. */
export interface Moment {
  readonly frame: number;
  readonly time: number;
  readonly station: number;
}

/** What a criterion says of a run. */
export interface Verdict {
  /** Index in the scenario's criteria. */
  readonly index: number;
  readonly kind: string;
  /** What was asked, as a sentence: 'Every wheel keeps at least 20 % of its standing load'. */
  readonly asks: string;
  readonly pass: boolean;
  /** Worst value and the limit that it is held against, SI; null when there is nothing to measure. */
  readonly value: number | null;
  readonly limit: number | null;
  readonly unit: string;
  /** Worst value in words with a unit for people: '12 %', '3.1 mm'. */
  readonly shown: string;
  /** The answer in one sentence: worst value, where, which wheel. */
  readonly says: string;
  /** Why it came to that, in one sentence made from the run's forces; absent where they do not tell. */
  readonly cause?: string;
  /** Wheel or member that it is about. */
  readonly of?: string;
  readonly moment?: Moment;
}

/** The greatest force of one kind in one joint, rod, member or element over a run, and where it happened. */
export interface JointReport {
  readonly part: 'pin' | 'guide' | 'rod' | 'member' | 'element';
  /** Name of the joint, rod, member or element. */
  readonly of: string;
  /**
   * `force` of a pin or across a guide, `moment` of a guide, `pull` and `push` of a rod, `axial` (pull positive), `shear`
   * and `bending` in a member, `effort` of an element (negative where it pushes back), `twist` of a bar from where it is
   * free and `stress` at its surface (sizes; of ONE bar). All others are sizes.
   */
  readonly quantity:
    | 'force'
    | 'moment'
    | 'pull'
    | 'push'
    | 'axial'
    | 'shear'
    | 'bending'
    | 'effort'
    | 'twist'
    | 'stress';
  /** SI, for all equal parts of the axle line together (`twist` and `stress`: of one). */
  readonly value: number;
  readonly unit: string;
  /** Equal ones side by side, and the share of ONE, where the scenario counts them. */
  readonly count?: number;
  readonly each?: number;
  /** Where in the member, as drawn, m. */
  readonly at?: { readonly x: number; readonly z: number };
  readonly moment: Moment;
}

/** What sort of thing a line of the ledger is about. */
export type LedgerSort =
  | 'grip'
  | 'motor'
  | 'supply'
  | 'gear'
  | 'shaft'
  | 'joint'
  | 'differential'
  | 'clutch'
  | 'winch'
  | 'pin'
  | 'rod'
  | 'arm'
  | 'bar'
  | 'spring'
  | 'balance'
  | 'tipping'
  | 'belly'
  | 'stop';

/** One thing that could end the crossing, at its worst. */
export interface LedgerLine {
  readonly sort: LedgerSort;
  /** Name of the part, axle line or member. */
  readonly of: string;
  /** Where the document has it, for a jump to its fields. */
  readonly path?: string;
  /** What it is measured by: 'torque', 'stress', 'angle', 'grip', 'travel'. */
  readonly quantity: string;
  /** Share of its limit that it uses at its worst: 1 is the limit. null: the limit is not known, never taken for safe. */
  readonly use: number | null;
  /** What it carries there and what it may carry, SI, of ONE part. */
  readonly carries: number;
  readonly limit: number | null;
  readonly unit: string;
  /** How the limit is known, and how far it may be off (relative, ±). */
  readonly how?: 'given' | 'measured' | 'estimate' | 'typical';
  readonly spread?: number;
  /** The line in one sentence. */
  readonly says: string;
  /** Where it is at its worst. */
  readonly moment?: Moment;
  /** Where it first gives on the way; absent while it holds. */
  readonly gives?: Moment;
  /** Reaching this limit ends nothing by itself: a stop that may be met, a wheel that may spin while others pull. */
  readonly harmless?: true;
}

/** All that could end a crossing, the nearest to its limit first; what is unknown comes last. */
export interface Ledger {
  readonly lines: readonly LedgerLine[];
  /** The first line at more than its limit along the way, in words; or which one is nearest to it. */
  readonly says: string;
}

/** One axle line in the report. */
export interface WheelReport {
  readonly id: string;
  /** Number of the axle line, 1 from the front. */
  readonly axle: number;
  /** Wheels on the line. */
  readonly count: number;
  /** Standing load, N: all wheels of the line together, and of each. */
  readonly load: number;
  readonly loadPerWheel: number;
  /** Standing travel, m, bump positive. */
  readonly travel: number;
  /** Least and greatest load of the run, N (line), absent for a stand. */
  readonly leastLoad?: number;
  readonly greatestLoad?: number;
  /** Share of the run's time off the ground, 0 to 1; absent for a stand. */
  readonly timeOff?: number;
}

/** What comes out of a run, for people and for other programs: the object that `--json` prints. */
export interface Report {
  readonly mode: 'check' | 'stand' | 'drive' | 'crawl';
  readonly title: string;
  readonly vehicle: string;
  /** kg. */
  readonly mass: number;
  /** Centre of gravity in the drawn position, m in the drawing frame. */
  readonly cg: { readonly x: number; readonly z: number };
  /** Pitch inertia about the centre of gravity, kg·m². */
  readonly pitchInertia: number;
  readonly wheels: readonly WheelReport[];
  readonly measures: readonly Measure[];
  /** Greatest forces in joints and members; absent for a check or a stand. */
  readonly joints?: readonly JointReport[];
  /** What is how near to its limit; where the vehicle has a drive line or strength figures. */
  readonly ledger?: Ledger;
  readonly events: readonly RunEvent[];
  readonly verdicts: readonly Verdict[];
  readonly problems: readonly Problem[];
  readonly end?: RunEnd;
  /** Engine substep, s; absent for a crawl. */
  readonly substep?: number;
  /** All criteria held and the run could finish. */
  readonly pass: boolean;
}
