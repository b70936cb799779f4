import { z } from 'zod';
import { definePart, straightThrough } from '../part.ts';

/** A winch on a power take-off: it pulls a rope, and turns no wheel. Keep clear of a loaded rope. */
export const winch = definePart({
  kind: 'winch',
  title: 'Winch',
  sort: 'winch',
  source: 'torque of a rope on a drum, mechanics texts',
  fields: z.strictObject({}),
  law: () => ({ ...straightThrough, winch: true }),
  sample: {},
});
