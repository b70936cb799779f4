import { z } from 'zod';
import type { Vec2 } from '../../shared/geometry/vec.ts';
import { Problems } from '../../shared/problem.ts';
import { quantity } from '../../shared/schema/quantity.ts';
import { defineGround } from './ground.ts';
import { spoken } from './size.ts';

/** A table of points joined by straight lines, moved so that its first point is where the piece begins. */
export const table = defineGround({
  kind: 'table',
  title: 'Table of points',
  source: 'common practice, no source',
  fields: z.strictObject({
    points: z
      .array(
        z.strictObject({
          station: quantity('length', 'Station of the point along the level, from any origin.', {
            least: -1e6,
            most: 1e6,
          }),
          height: quantity('length', 'Height of the point, from any origin.', { least: -1000, most: 1000 }),
        }),
      )
      .min(2)
      .meta({
        description:
          'Points from rear to front. Stations never go back; two points at one station make a vertical face. The first point is laid where the piece begins.',
      }),
  }),
  shape({ points }) {
    const problems = new Problems();
    const shape: Vec2[] = [];
    const first = points[0] ?? { station: 0, height: 0 };
    let last = first.station;
    points.forEach(({ station, height }, i) => {
      if (station < last) {
        problems.error(
          `points[${i}].station`,
          `goes back from ${spoken(last)} to ${spoken(station)}`,
          'put the points in order of their stations',
        );
      }
      last = station;
      shape.push({ x: station - first.station, z: height - first.height });
    });
    return { points: problems.failed ? [] : shape, problems: problems.list };
  },
  sample: {
    points: [
      { station: 0, height: 0 },
      { station: '200 mm', height: '15 mm' },
      { station: '200 mm', height: '40 mm' },
      { station: '500 mm', height: '10 mm' },
      { station: '800 mm', height: 0 },
    ],
  },
});
