import { z } from 'zod';
import { quantity } from '../../shared/schema/quantity.ts';
import { defineGround } from './ground.ts';

/** A ditch with two even slopes that meet at its lowest line. Exact, three points. */
export const vDitch = defineGround({
  kind: 'v-ditch',
  title: 'V-ditch',
  source: 'common practice, no source',
  fields: z.strictObject({
    width: quantity('length', 'Width of the ditch between its upper edges.', { above: 0, most: 1e5 }),
    depth: quantity('length', 'Depth of its lowest line, halfway between the edges.', {
      above: 0,
      most: 1000,
    }),
  }),
  shape: ({ width, depth }) => ({
    points: [
      { x: 0, z: 0 },
      { x: width / 2, z: -depth },
      { x: width, z: 0 },
    ],
    problems: [],
  }),
  sample: { width: '400 mm', depth: '90 mm' },
});
