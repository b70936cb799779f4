import { z } from 'zod';
import { nameOf, point, quantity } from '../../../shared/schema/quantity.ts';
import { definePart, straightThrough } from '../part.ts';

const end = (says: string) =>
  z
    .strictObject({ on: nameOf("Member that holds this end, or 'chassis'."), ...point('').shape })
    .meta({ description: says });

/** A shaft, between two bodies where it has two ends in the drawing. */
export const shaft = definePart({
  kind: 'shaft',
  title: 'Shaft',
  sort: 'shaft',
  source: 'twist stiffness G·K/L: Saint-Venant torsion, texts on strength of materials',
  fields: z.strictObject({
    ends: z
      .tuple([end('End towards the source.'), end('End towards the wheels.')])
      .optional()
      .meta({ description: 'Its ends in the drawing: its joints take their angles from them.' }),
    length: quantity('length', 'Its length across the vehicle, for a shaft that lies across.', {
      above: 0,
      most: 100,
    }).optional(),
    offset: quantity('length', 'How far its ends lie apart across the vehicle, for a lengthwise shaft.', {
      least: 0,
      most: 100,
    }).default(0),
    stiffness: quantity('torsionStiffness', 'Twist stiffness of ONE shaft.', {
      above: 0,
      most: 1e12,
    }).optional(),
  }),
  law: ({ length, offset, stiffness }) => ({
    ...straightThrough,
    reach: length ?? offset,
    ...(stiffness === undefined ? {} : { stiffness }),
  }),
  sample: {},
});
