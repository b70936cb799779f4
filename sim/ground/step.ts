import { z } from 'zod';
import { quantity } from '../../shared/schema/quantity.ts';
import { defineGround } from './ground.ts';

/** A step with a vertical face and the level ground behind it. Exact, three points; what follows goes on at its height. */
export const step = defineGround({
  kind: 'step',
  title: 'Step',
  source: 'common practice, no source',
  fields: z.strictObject({
    height: quantity('length', 'Height of the vertical face: up is positive, down is negative.', {
      least: -1000,
      most: 1000,
    }),
    length: quantity('length', 'Length of the level ground behind the face.', { above: 0, most: 1e5 }),
  }),
  shape: ({ height, length }) => ({
    points: [
      { x: 0, z: 0 },
      { x: 0, z: height },
      { x: length, z: height },
    ],
    problems: [],
  }),
  sample: { height: '30 mm', length: '1 m' },
});
