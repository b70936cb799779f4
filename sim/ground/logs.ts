import { z } from 'zod';
import type { Vec2 } from '../../shared/geometry/vec.ts';
import { Problems } from '../../shared/problem.ts';
import { quantity } from '../../shared/schema/quantity.ts';
import { crestArc } from './arc.ts';
import { defineGround } from './ground.ts';
import { checkRow, row } from './row.ts';

/**
 * A row of equal logs across the track, which do not roll. A log that is sunk by half its diameter is a half-round
 * bump; sunk deeper, a flatter arc. A log that lies higher hangs over its own foot: the ground has no overhangs, so
 * it falls vertically from the log's widest line, and what is under that line counts as filled. A wheel larger than
 * the log never reaches there.
 */
export const logs = defineGround({
  kind: 'logs',
  title: 'Logs',
  source: 'elementary geometry of the circle',
  fields: z.strictObject({
    diameter: quantity('length', 'Diameter of a log.', { above: 0, most: 1000 }),
    count: z.int().min(1).max(100_000).default(1).meta({ description: 'Number of logs.', unit: '1' }),
    spacing: quantity(
      'length',
      'From the middle of one log to the middle of the next. Not needed for a single log.',
      { above: 0, most: 1e5 },
    ).optional(),
    sunk: quantity(
      'ratio',
      'Share of the diameter that is under the ground: 0 lies on it, 0.5 leaves a half-round bump.',
      { least: 0, most: 0.95 },
    ).default(0.5),
  }),
  shape({ diameter, count, spacing, sunk }) {
    const problems = new Problems();
    const log = crest(diameter / 2, diameter * (0.5 - sunk));
    const base = log.at(-1)?.x ?? 0;
    checkRow(count, spacing, base, problems);
    if (problems.failed) return { points: [], problems: problems.list };
    return { points: row(log, count, spacing ?? base, problems), problems: problems.list };
  },
  sample: { diameter: '40 mm', count: 3, spacing: '220 mm', sunk: 0.25 },
});

/** The upper arc of a log, m, whose centre lies `rise` above the ground (negative: under it); begins at x = 0. */
function crest(radius: number, rise: number): Vec2[] {
  const half = rise >= 0 ? Math.PI / 2 : Math.acos(-rise / radius);
  return crestArc({ x: radius * Math.sin(half), z: rise }, radius, half);
}
