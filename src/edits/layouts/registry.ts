import { eight } from './eight.ts';
import { four } from './four.ts';
import { nothing } from './rigid.ts';
import { rocking } from './rocking.ts';
import { six } from './six.ts';

/** Every vehicle to begin with. A new one is its file and one line here. */
export const startingLayouts = [nothing, four, six, eight, rocking] as const;
