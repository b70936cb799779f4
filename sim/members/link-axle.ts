import { z } from 'zod';
import { point } from '../../shared/schema/quantity.ts';
import { onField, travelStops } from './fields.ts';
import { defineMember } from './member.ts';

const link = (says: string) =>
  z
    .strictObject({
      parent: point('End on the parent, in the drawing.'),
      axle: point('End on the axle housing, in the drawing.'),
    })
    .meta({ description: says });

/** A beam axle held by a lower and an upper rod: a closed loop. Springs and bars act between two points. */
export const linkAxle = defineMember({
  kind: 'link-axle',
  title: 'Beam axle on two rods',
  source: 'planar four-bar linkage, textbooks on mechanisms',
  fields: z.strictObject({
    on: onField,
    at: point('Axle centre in the drawing.'),
    lower: link('Lower rod.'),
    upper: link('Upper rod.'),
    ...travelStops,
  }),
  needs: (p) => [p.on],
  expand(name, p, build) {
    const parent = build.bodyOf(p.on);
    const body = build.body(name, p.on);
    build.free(name, body);
    const rods = [p.lower, p.upper].map((rod) => ({
      a: { body: parent, at: rod.parent },
      b: { body, at: rod.axle },
    }));
    rods.forEach((rod, i) => {
      build.rod(`${name} ${i === 0 ? 'lower' : 'upper'} rod`, rod.a, rod.b);
    });
    const coordinate = { kind: 'lift' as const, body, at: p.at, parent };
    build.stops(coordinate, { bump: p.bump, droop: p.droop, stiffness: p.stopStiffness }, 1);
    const pins = rods.flatMap((rod) => [rod.a, rod.b]);
    const upright = [p.lower.axle, p.at, p.upper.axle].map((at) => ({ body, at }));
    const [low, centre, high] = upright as [(typeof upright)[0], (typeof upright)[0], (typeof upright)[0]];
    const lines = [
      ...rods.map((rod) => ({ from: rod.a, to: rod.b, weight: 'load' as const })),
      { from: low, to: centre, weight: 'load' as const },
      { from: centre, to: high, weight: 'load' as const },
    ];
    return { body, coordinate, unit: 'm', lines, pins };
  },
  sample: {
    at: { x: 0, z: '55 mm' },
    lower: { parent: { x: '-90 mm', z: '50 mm' }, axle: { x: 0, z: '45 mm' } },
    upper: { parent: { x: '-80 mm', z: '80 mm' }, axle: { x: 0, z: '75 mm' } },
    bump: '20 mm',
    droop: '20 mm',
  },
});
