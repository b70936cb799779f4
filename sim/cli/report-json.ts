import type { Problem } from '../../shared/problem.ts';
import type { Report, WheelReport } from '../../shared/report.ts';

/** Report of a check: nothing has stood or run, so its wheels carry no loads. */
export interface CheckReport extends Omit<Report, 'mode' | 'wheels' | 'end' | 'substep'> {
  readonly mode: 'check';
  readonly wheels: readonly Pick<WheelReport, 'id' | 'axle' | 'count'>[];
}

/** What is left of a report when the document could not be read: its problems, and lists with nothing in them. */
export interface UnreadableReport {
  readonly mode: Report['mode'];
  readonly wheels: readonly [];
  readonly measures: readonly [];
  readonly events: readonly [];
  readonly verdicts: readonly [];
  readonly problems: readonly Problem[];
  readonly pass: false;
}

/** The report of a document that could not be read. */
export function unreadableReport(mode: Report['mode'], problems: readonly Problem[]): UnreadableReport {
  return { mode, wheels: [], measures: [], events: [], verdicts: [], problems, pass: false };
}

/**
 * A report as JSON text with an end of line.
 * @throws RangeError for a number that JSON cannot say (NaN, infinite): `JSON.stringify` would make it null without a
 * word. The message names its path.
 */
export function reportJson(report: Report | CheckReport | UnreadableReport): string {
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
