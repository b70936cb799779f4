import { z } from 'zod';
import { quantity } from '../../shared/schema/quantity.ts';
import { defineGround } from './ground.ts';

/** A trench with vertical walls and a level floor. Exact, four points. */
export const trench = defineGround({
  kind: 'trench',
  title: 'Trench',
  source: 'common practice, no source',
  fields: z.strictObject({
    width: quantity('length', 'Width of the trench, from wall to wall.', { above: 0, most: 1e5 }),
    depth: quantity('length', 'Depth of its floor under the ground around it.', { above: 0, most: 1000 }),
  }),
  shape: ({ width, depth }) => ({
    points: [
      { x: 0, z: 0 },
      { x: 0, z: -depth },
      { x: width, z: -depth },
      { x: width, z: 0 },
    ],
    problems: [],
  }),
  sample: { width: '70 mm', depth: '60 mm' },
});
