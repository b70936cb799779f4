import { z } from 'zod';
import { Problems } from '../../shared/problem.ts';
import { quantity } from '../../shared/schema/quantity.ts';
import { defineGround } from './ground.ts';

/** An even slope, up or down. Exact, two points. */
export const ramp = defineGround({
  kind: 'ramp',
  title: 'Ramp',
  source: 'common practice, no source',
  fields: z.strictObject({
    length: quantity('length', 'Level length of the ramp; 0 with a height gives a vertical face.', {
      least: 0,
      most: 1e5,
    }),
    height: quantity('length', 'Rise over the whole length: up is positive. Give this or the angle.', {
      least: -1e4,
      most: 1e4,
    }).optional(),
    angle: quantity(
      'angle',
      'Angle of the slope against the level: up is positive. Give this or the height.',
      {
        least: -1.5,
        most: 1.5,
      },
    ).optional(),
  }),
  shape({ length, height, angle }) {
    const problems = new Problems();
    if (height !== undefined && angle !== undefined) {
      problems.error('angle', 'stands beside a height; one of them says it all', 'leave one of them out');
    } else if (height === undefined && angle === undefined) {
      problems.error('', 'has neither a height nor an angle', 'give one of them');
    } else if (angle !== undefined && length === 0) {
      problems.error(
        'length',
        'is 0 m, so the angle has nothing to rise over',
        'give a height for a vertical face',
      );
    }
    const rise = height ?? length * Math.tan(angle ?? 0);
    const points = [
      { x: 0, z: 0 },
      { x: length, z: rise },
    ];
    return { points: problems.failed ? [] : points, problems: problems.list };
  },
  sample: { length: '500 mm', angle: '15 deg' },
});
