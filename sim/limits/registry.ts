import { gradeDown } from './grade-down.ts';
import { gradeUp } from './grade-up.ts';
import type { ObstacleKind } from './obstacle.ts';
import { staggeredLog } from './staggered-log.ts';
import { stepDown } from './step-down.ts';
import { stepUp } from './step-up.ts';
import { trench } from './trench.ts';

/** Every kind of obstacle, in the order of the table. A new kind is its file and one line here. */
export const obstacleKinds = [
  stepUp,
  stepDown,
  trench,
  gradeUp,
  gradeDown,
  staggeredLog,
] as const satisfies readonly ObstacleKind[];
