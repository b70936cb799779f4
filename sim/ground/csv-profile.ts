import type { Problems } from '../../shared/problem.ts';
import { limits } from '../../shared/schema/scenario.ts';
import { tooManyPoints } from './size.ts';

/** One line of a profile, in the units of its file. */
export interface Reading {
  /** Line of the file, counted from 1. */
  readonly line: number;
  readonly station: number;
  readonly height: number;
}

/** At most so many problems of one kind are told line by line; the rest are counted. */
const toldLines = 20;

/** Tells problems line by line, up to 20 of them; `rest` then says how many more there are. */
export function byLine(problems: Problems, where: string) {
  let told = 0;
  return {
    error(line: number, message: string, hint?: string): void {
      told++;
      if (told <= toldLines) problems.error(`${where}, line ${line}`, message, hint);
    },
    rest(): void {
      if (told > toldLines) problems.error(where, `has ${told - toldLines} more problems like these`);
    },
  };
}

/**
 * Checks that a profile has at least two points and no more than `limits.groundPoints`, that its stations never go
 * back, and that samples at an even spacing have no hole (a warning).
 */
export function checkProfile(readings: readonly Reading[], where: string, problems: Problems): void {
  if (readings.length > limits.groundPoints) {
    problems.error(where, tooManyPoints(readings.length), 'thin it out or cut it into shorter pieces');
    return;
  }
  checkOrder(readings, where, problems);
  if (problems.failed) return;
  if (readings.length < 2)
    problems.error(where, `has ${readings.length === 0 ? 'no points' : 'one point'}; a profile needs two`);
  else warnOfHoles(readings, where, problems);
}

/** Checks that the stations of a profile of any length never go back. */
export function checkOrder(readings: readonly Reading[], where: string, problems: Problems): void {
  const lines = byLine(problems, where);
  readings.forEach((reading, i) => {
    const last = readings[i - 1];
    if (last !== undefined && reading.station < last.station) {
      lines.error(
        reading.line,
        `the station goes back from ${last.station} to ${reading.station}`,
        'put the lines in order of their stations',
      );
    }
  });
  lines.rest();
}

/**
 * Warns where a step is longer than 1.5 times the median, in a file in which nine of ten steps lie within 1 % of the
 * median: it was sampled evenly, and lines are missing. Files of hand-picked points have no such rhythm.
 */
function warnOfHoles(readings: readonly Reading[], where: string, problems: Problems): void {
  const steps = readings.slice(1).map((r, i) => r.station - (readings[i]?.station ?? 0));
  const median = [...steps].sort((a, b) => a - b)[Math.floor(steps.length / 2)] ?? 0;
  const even = steps.filter((s) => Math.abs(s - median) <= 0.01 * median).length;
  if (steps.length < 10 || even < 0.9 * steps.length) return;
  const holes = readings.slice(1).filter((_, i) => (steps[i] ?? 0) > 1.5 * median);
  for (const after of holes.slice(0, toldLines)) {
    problems.warn(
      `${where}, line ${after.line}`,
      `there is a gap before station ${after.station}: the other points are ${median} apart`,
      'a straight line is laid across it; add the missing lines if there are any',
    );
  }
  if (holes.length > toldLines) problems.warn(where, `has ${holes.length - toldLines} more gaps`);
}
