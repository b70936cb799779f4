import { z } from 'zod';
import type { Vec2 } from '../../shared/geometry/vec.ts';
import { Problems } from '../../shared/problem.ts';
import { quantity } from '../../shared/schema/quantity.ts';
import { crestArc } from './arc.ts';
import { defineGround } from './ground.ts';
import { checkRow, row } from './row.ts';
import { spoken } from './size.ts';

/**
 * A row of equal bumps, each a circular arc on level ground: a half circle of a given radius, or the flatter arc of a
 * given height and base, with radius (base²/4 + height²)/(2·height) (chord and rise of a circle, elementary geometry).
 *
 * What `stagger` models: the bumps lie under the left and the right wheels in turn. The side view has one wheel for
 * all wheels of an axle line, so it is given the mean of the two tracks: every bump at half its height, on its full
 * base. That is how far the middle of a stiff axle rises when one of its wheels climbs the bump. The roll, and the
 * unequal loads left and right that come with it, are not modelled.
 */
export const bumps = defineGround({
  kind: 'bumps',
  title: 'Round bumps',
  source:
    'elementary geometry of the circle; mean of the two tracks for staggered rows: common practice, no source',
  fields: z.strictObject({
    count: z
      .int()
      .min(1)
      .max(100_000)
      .meta({ description: 'Number of bumps; staggered: of both sides together.', unit: '1' }),
    spacing: quantity(
      'length',
      'From the middle of one bump to the middle of the next; staggered: from a left one to the next right one. Not needed for a single bump.',
      { above: 0, most: 1e5 },
    ).optional(),
    radius: quantity('length', 'Radius of a half-round bump. Give this, or height and base.', {
      above: 0,
      most: 1000,
    }).optional(),
    height: quantity('length', 'Height of a bump, at most half its base. Give it with the base.', {
      above: 0,
      most: 1000,
    }).optional(),
    base: quantity('length', 'Length of a bump where it meets the ground. Give it with the height.', {
      above: 0,
      most: 2000,
    }).optional(),
    stagger: z.boolean().default(false).meta({
      description:
        'Whether the bumps lie left and right in turn. In side view each is then drawn at half its height: the mean of the two tracks, which is how far the middle of the axle rises.',
    }),
  }),
  shape(params) {
    const problems = new Problems();
    const { height, base } = sizeOf(params, problems);
    checkRow(params.count, params.spacing, base, problems);
    if (problems.failed) return { points: [], problems: problems.list };
    const bump = arcOn(base, height).map((p) => (params.stagger ? { x: p.x, z: p.z / 2 } : p));
    const points = row(bump, params.count, params.spacing ?? base, problems);
    return { points, problems: problems.list };
  },
  sample: { count: 5, spacing: '250 mm', radius: '20 mm', stagger: true },
});

/** Height and base of one bump, m, from whichever way they are given. */
function sizeOf(
  {
    radius,
    height,
    base,
  }: { radius?: number | undefined; height?: number | undefined; base?: number | undefined },
  problems: Problems,
): { height: number; base: number } {
  if (radius !== undefined) {
    if (height !== undefined)
      problems.error('height', 'stands beside a radius', 'give a radius, or height and base');
    if (base !== undefined)
      problems.error('base', 'stands beside a radius', 'give a radius, or height and base');
    return { height: radius, base: 2 * radius };
  }
  if (height === undefined || base === undefined) {
    problems.error('', 'has no size', 'give a radius, or height and base');
    return { height: 0, base: 0 };
  }
  if (height > base / 2) {
    problems.error(
      'height',
      `is ${spoken(height)}, more than half the base of ${spoken(base)}: the bump would hang over its own foot`,
      'widen the base, or lay a log',
    );
  }
  return { height, base };
}

/** One circular arc of that base and height, m, that begins at (0, 0) and ends at (base, 0). */
function arcOn(base: number, height: number): Vec2[] {
  const radius = (base ** 2 / 4 + height ** 2) / (2 * height);
  const half = height >= base / 2 ? Math.PI / 2 : Math.asin(base / 2 / radius);
  return crestArc({ x: base / 2, z: height - radius }, radius, half);
}
