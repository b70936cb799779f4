import { flat } from './flat.ts';
import { step } from './step.ts';
import { table } from './table.ts';

/** Every kind of ground. A new kind is its file and one line here. */
export const groundKinds = [flat, step, table] as const;
