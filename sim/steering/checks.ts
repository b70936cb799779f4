import type { Problems } from '../../shared/problem.ts';
import { formatQuantity } from '../../shared/units.ts';
import { reachOf } from './linkage.ts';
import type { Steering } from './steering.ts';

const degrees = (angle: number): string => formatQuantity(angle, 'angle', 3, 'deg');

/** Tells what is wrong with a steering: angles past a right angle, an angle that its linkage cannot reach, a line twice. */
export function tellSteering(steering: Steering, problems: Problems): void {
  const path = `vehicle.steering[${steering.index}]`;
  steering.lines.forEach((line, i) => {
    if (line.most > Math.PI / 2)
      problems.error(
        `${path}.lines[${i}].most`,
        `is ${degrees(line.most)}: past 90°`,
        'no lever, rack or link steers a wheel that far',
      );
    else if (steering.lines.findIndex((other) => other.wheel === line.wheel) < i)
      problems.error(`${path}.lines[${i}].wheel`, 'is steered twice', 'name each line once');
  });
  const [first] = steering.lines;
  if (first === undefined || first.most > Math.PI / 2) return;
  const reach = reachOf(steering.linkage, first.most);
  if (reach < first.most)
    problems.error(
      `${path}.lines[0].most`,
      `is ${degrees(first.most)}, and the linkage reaches ${degrees(reach)}`,
      steering.linkage.kind === 'lever' ? 'a longer lever or a shorter arm' : 'a smaller angle',
    );
}
