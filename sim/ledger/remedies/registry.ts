import { lessMass } from './less-mass.ts';
import { locks } from './locks.ts';
import { lowerPivot } from './lower-pivot.ts';
import { moreReduction } from './more-reduction.ts';
import { motorForEach } from './motor-per-axle.ts';
import { reductionBehind } from './reduction-behind.ts';
import type { Remedy } from './remedy.ts';
import { strongerPart } from './stronger-part.ts';

/** Every kind of change that is tried for the part that gives first, in the order of the table. */
export const remedies = [
  strongerPart,
  moreReduction,
  reductionBehind,
  motorForEach,
  locks,
  lessMass,
  lowerPivot,
] as const satisfies readonly Remedy[];
