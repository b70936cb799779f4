import type { Problems } from '../../../shared/problem.ts';
import { limits } from '../../../shared/schema/scenario.ts';
import { formatQuantity } from '../../../shared/units.ts';
import { courseOf } from '../course.ts';
import type { Whole, WholeCheck } from './check.ts';

const metres = (station: number) => formatQuantity(station, 'length', 4);

/** The run begins and ends on the ground that was drawn. */
function staysOnGround({ scenario, ground }: Whole, problems: Problems): boolean {
  let stays = true;
  for (const field of ['start', 'until'] as const) {
    const station = scenario.run[field];
    if (station === undefined || (station >= ground.from && station <= ground.to)) continue;
    stays = false;
    problems.error(
      `run.${field}`,
      `is station ${metres(station)}, and the ground goes from ${metres(ground.from)} to ${metres(ground.to)}`,
      'choose a station on the ground, or lengthen the ground',
    );
  }
  return stays;
}

/** The run begins and ends on the ground; its end lies in the direction of travel, and can be reached within the longest run. */
export const runHasAWay: WholeCheck = (whole, problems) => {
  const { scenario, ground } = whole;
  if (!staysOnGround(whole, problems)) return;
  const { speed } = scenario.vehicle.drive;
  if (speed === 0) return;
  const { start, until, time } = courseOf(scenario, ground);
  const way = (until - start) * Math.sign(speed);
  if (way <= 0) {
    const asked = scenario.run.until !== undefined || scenario.run.start !== undefined;
    const direction = speed > 0 ? 'ahead of' : 'behind';
    if (asked)
      problems.error(
        'run.until',
        `the run ends at station ${metres(until)}, which is not ${direction} its start at ${metres(start)}`,
        'swap them, or change the sign of the speed',
      );
    else
      problems.error(
        'ground',
        `is ${metres(ground.to - ground.from)} long, shorter than the vehicle, so there is no way to drive`,
        'add a flat piece before and after',
      );
    return;
  }
  const least = way / Math.abs(speed);
  if (least > limits.simulatedTime)
    problems.error(
      'run',
      `takes ${formatQuantity(least, 'time', 4)} at the target speed, at most ${limits.simulatedTime} s are allowed`,
      'drive a shorter way or faster',
    );
  else if (least > time)
    problems.warn(
      'run.time',
      `is ${formatQuantity(time, 'time', 4)}, but the way takes ${formatQuantity(least, 'time', 4)} at the target speed`,
      'the run will end before its goal',
    );
};
