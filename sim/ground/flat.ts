import { z } from 'zod';
import { quantity } from '../../shared/schema/quantity.ts';
import { defineGround } from './ground.ts';

/** Level ground: a straight line of the given length. Exact, two points. */
export const flat = defineGround({
  kind: 'flat',
  title: 'Level ground',
  source: 'common practice, no source',
  fields: z.strictObject({
    length: quantity('length', 'Length of the level ground.', { above: 0, most: 1e5 }),
  }),
  shape: ({ length }) => ({
    points: [
      { x: 0, z: 0 },
      { x: length, z: 0 },
    ],
    problems: [],
  }),
  sample: { length: '1 m' },
});
