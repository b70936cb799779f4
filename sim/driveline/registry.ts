import { differential } from './kinds/differential.ts';
import { motor } from './kinds/motor.ts';
import { reduction } from './kinds/reduction.ts';
import { shaft } from './kinds/shaft.ts';

/** Every kind of drive line part: a new one is its file in kinds and one line here. */
export const partKinds = [motor, reduction, shaft, differential] as const;
