import type { Problem } from '../../shared/problem.ts';
import type { Report, WheelReport } from '../../shared/report.ts';
import type { HaltKind } from '../limits/cross.ts';
import type { CurvePoint } from '../limits/curves.ts';
import type { LedgerReport, MassReport } from './ledger-report.ts';
import type { PerformanceReport } from './performance-report.ts';
import type { SteerReport, WinchReport } from './rig-report.ts';
import type { RoughReport } from './rough-report.ts';
import type { MapReport, MattersReport } from './study-report.ts';
import type { StudyReport } from './tuned-report.ts';

/** What a report may be of. */
export type Mode =
  | Report['mode']
  | 'limits'
  | 'matters'
  | 'map'
  | 'study'
  | 'rough'
  | 'performance'
  | 'winch'
  | 'steer'
  | 'ledger'
  | 'mass';

/** Report of a check: nothing has stood or run, so its wheels carry no loads. */
export interface CheckReport extends Omit<Report, 'mode' | 'wheels' | 'end' | 'substep'> {
  readonly mode: 'check';
  readonly wheels: readonly Pick<WheelReport, 'id' | 'axle' | 'count'>[];
}

/** What stops a vehicle, for programs. */
export interface HaltReport {
  readonly by: HaltKind;
  readonly says: string;
  /** Station of the vehicle's reference point past the beginning of the obstacle, m. */
  readonly station: number;
}

/** One limit: the largest obstacle of a kind. Sizes in `unit`: m, or rad against the level. */
export interface LimitReport {
  readonly kind: string;
  readonly title: string;
  readonly measures: string;
  readonly unit: 'm' | 'rad';
  readonly limit: number;
  /** What stops it just above the limit; null when nothing did up to `most`. */
  readonly halt: HaltReport | null;
  readonly most: number;
  readonly remarks: readonly string[];
  /** Largest such obstacle of the scenario's ground, and limit / today − 1; null when it has none. */
  readonly today: number | null;
  readonly margin: number | null;
  /** Limit over grip (`at`: 1) and over mass (`at`: kg), with `--curves` only. */
  readonly overGrip?: readonly CurvePoint[];
  readonly overMass?: readonly CurvePoint[];
}

/** What `limits` prints. */
export interface LimitsReport
  extends Pick<Report, 'title' | 'vehicle' | 'mass' | 'cg' | 'pitchInertia' | 'problems' | 'pass'> {
  readonly mode: 'limits';
  /** Grip of every tyre that was asked for; null where each has its own. */
  readonly grip: number | null;
  readonly reverse: boolean;
  /** Why it does not even cross level ground; null when it does. */
  readonly level: HaltReport | null;
  readonly limits: readonly LimitReport[];
}

/** Any object that `--json` prints. */
export type AnyReport =
  | Report
  | CheckReport
  | LimitsReport
  | MattersReport
  | MapReport
  | StudyReport
  | RoughReport
  | WinchReport
  | SteerReport
  | PerformanceReport
  | LedgerReport
  | MassReport
  | UnreadableReport;

/** What is left of a report when the document could not be read: its problems, and lists with nothing in them. */
export interface UnreadableReport {
  readonly mode: Mode;
  readonly wheels: readonly [];
  readonly measures: readonly [];
  readonly events: readonly [];
  readonly verdicts: readonly [];
  readonly problems: readonly Problem[];
  readonly pass: false;
}

/** The report of a document that could not be read. */
export function unreadableReport(mode: Mode, problems: readonly Problem[]): UnreadableReport {
  return { mode, wheels: [], measures: [], events: [], verdicts: [], problems, pass: false };
}

/**
 * A report as JSON text with an end of line.
 * @throws RangeError for a number that JSON cannot say (NaN, infinite): `JSON.stringify` would make it null without a
 * word. The message names its path.
 */
export function reportJson(report: AnyReport): string {
  refuseNonFinite(report, '');
  return `${JSON.stringify(report, null, 2)}\n`;
}

function refuseNonFinite(value: unknown, path: string): void {
  if (typeof value === 'number' && !Number.isFinite(value))
    throw new RangeError(`${path} of the report is not a finite number`);
  if (typeof value !== 'object' || value === null) return;
  for (const [key, inner] of Object.entries(value))
    refuseNonFinite(inner, path === '' ? key : `${path}.${key}`);
}
