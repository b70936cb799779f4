import { z } from 'zod';
import { definePart, straightThrough } from '../part.ts';

/** A freewheel: it drives, and lets the wheels run ahead. */
export const freewheel = definePart({
  kind: 'freewheel',
  title: 'Freewheel',
  sort: 'clutch',
  source: 'overrunning clutch, machine design texts',
  fields: z.strictObject({}),
  law: () => ({ ...straightThrough, backDriving: 0, oneWay: true }),
  sample: {},
});
