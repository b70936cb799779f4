import type { Recording } from '../../shared/recording.ts';
import { runOf } from '../ledger/run.ts';
import type { Mechanism } from '../mechanism/mechanism.ts';
import type { Run } from '../report/criterion.ts';
import type { Course } from '../scenario/course.ts';
import type { Scenario } from '../scenario/schema.ts';
import { criteriaBetter, judge } from '../studies/choice.ts';
import { haltOf } from '../studies/halt.ts';
import { type Goal, readingOf } from './goal.ts';
import type { GroundOutcome } from './sample.ts';

/**
 * A gap between a value and its limit as a share from 0 to 1: gap/(gap + limit), half where the gap is as large as the
 * limit itself. It grows with the gap and never ends, so that no criterion drowns the others. Definition of our own.
 */
export const shortfall = (gap: number, limit: number): number =>
  gap <= 0 ? 0 : gap / (gap + (limit === 0 ? 1 : Math.abs(limit)));

/** Least shortfall of a criterion that fails, so that a failure by a hair is one. */
const hair = 1e-6;

type Criterion = Scenario['criteria'][number];

/** By how much a criterion is missed: 0 where it holds, up to 1; 1 where there is nothing to measure. */
function shortOf(criterion: Criterion, run: Run, left: number): number {
  const verdict = judge(criterion, run);
  if (verdict === undefined || verdict.pass) return 0;
  if (criterion.kind === 'reaches') return Math.max(hair, left);
  const { value, limit } = verdict;
  if (value === null || limit === null || !Number.isFinite(value)) return 1;
  const gap = criteriaBetter[criterion.kind] === 'more' ? limit - value : value - limit;
  return Math.max(hair, shortfall(gap, limit));
}

/**
 * What a crossing came to: its goals and by how much each criterion is missed. The last entry of `short` is the share of
 * the way that is left where the vehicle gets stuck, falls over, or wants more grip or torque than there is.
 */
export function judged(
  scenario: Scenario,
  mechanism: Mechanism,
  recording: Recording,
  goals: readonly Goal[],
  course: Pick<Course, 'start' | 'until'>,
): GroundOutcome {
  const run = runOf(scenario, mechanism, recording);
  const { end } = recording;
  const arrived = end.kind === 'arrived' || (end.kind === 'time-up' && recording.mode === 'drive');
  const halt = arrived && recording.mode === 'crawl' ? haltOf(run) : undefined;
  const whole = course.until - course.start;
  const leftFrom = (station: number): number =>
    whole === 0 ? 1 : Math.min(1, Math.max(hair, (course.until - station) / whole));
  const left = halt === undefined ? (arrived ? 0 : leftFrom(end.station)) : leftFrom(halt.station);
  const why = halt?.says ?? (arrived ? undefined : endSays(end));
  return {
    goals: goals.map((goal) => (arrived ? finite(readingOf(goal, scenario, run)?.value) : null)),
    short: [...scenario.criteria.map((criterion) => shortOf(criterion, run, left)), left],
    ...(why === undefined ? {} : { why }),
  };
}

const finite = (value: number | null | undefined): number | null =>
  value !== undefined && value !== null && Number.isFinite(value) ? value : null;

function endSays(end: Recording['end']): string {
  if (end.kind === 'stuck') return end.cause;
  if (end.kind === 'tipped') return 'it tips over';
  return end.kind === 'diverged' ? `the run gave up: ${end.cause}` : 'it does not arrive';
}
