import { z } from 'zod';
import { quantity } from '../../../shared/schema/quantity.ts';
import { definePart, straightThrough } from '../part.ts';

/** A friction or slipper clutch: it passes torque up to where it slips. */
export const clutch = definePart({
  kind: 'clutch',
  title: 'Clutch',
  sort: 'clutch',
  source: 'dry friction clutch, machine design texts',
  fields: z.strictObject({
    slipTorque: quantity('torque', 'Torque of ONE at which it slips.', { above: 0, most: 1e7 }),
  }),
  law: ({ slipTorque }) => ({ ...straightThrough, slipTorque }),
  rating: ({ slipTorque }) => ({ torque: slipTorque, how: 'given', spread: 0 }),
  sample: { slipTorque: '0.5 N m' },
});
