import type { Vec2 } from '../../shared/geometry/vec.ts';
import type { Problems } from '../../shared/problem.ts';
import { limits } from '../../shared/schema/scenario.ts';
import { sameVertex, spoken, tooManyPoints } from './size.ts';

/** Reports a row of obstacles that has no spacing where it needs one, or whose obstacles run into each other; m. */
export function checkRow(count: number, spacing: number | undefined, base: number, problems: Problems): void {
  if (spacing === undefined) {
    if (count > 1) problems.error('spacing', 'is missing', 'give the distance from one middle to the next');
  } else if (count > 1 && spacing < base) {
    problems.error(
      'spacing',
      `is ${spoken(spacing)}, less than the length of one (${spoken(base)}): they would run into each other`,
      'space them further apart, or make them smaller',
    );
  }
}

/**
 * The same obstacle `count` times along the level, `spacing` (m) apart; `obstacle` begins at x = 0. The piece begins
 * at the foot of the first and ends at the foot of the last. Both feet are laid on the level exactly; where one
 * obstacle touches the next there is no level between them.
 */
export function row(obstacle: readonly Vec2[], count: number, spacing: number, problems: Problems): Vec2[] {
  const size = (obstacle.length + 2) * count;
  if (size > limits.groundPoints) {
    problems.error('count', tooManyPoints(size), 'ask for fewer');
    return [];
  }
  const base = obstacle.at(-1)?.x ?? 0;
  const touching = spacing - base <= sameVertex;
  const points: Vec2[] = [];
  for (let i = 0; i < count; i++) {
    const start = i * spacing;
    // Rounding may put the end of one obstacle behind the start of the next; x must never fall.
    const end = i < count - 1 ? Math.min(start + base, (i + 1) * spacing) : start + base;
    if (i === 0 || !touching) points.push({ x: start, z: 0 });
    for (const p of obstacle) points.push({ x: Math.min(start + Math.max(p.x, 0), end), z: p.z });
    if (i === count - 1 || !touching) points.push({ x: end, z: 0 });
  }
  return points;
}
