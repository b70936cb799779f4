import { z } from 'zod';
import { point } from '../../shared/schema/quantity.ts';
import { onField, turnStops } from './fields.ts';
import { defineMember } from './member.ts';

/** An axle housing hinged on what carries it, so that a torque rod can hold it upright. Nose-up positive. */
export const housing = defineMember({
  kind: 'housing',
  title: 'Axle housing on a hinge',
  source: 'common practice, no source',
  fields: z.strictObject({
    on: onField,
    pivot: point('Hinge on the parent, in the drawing.'),
    ...turnStops('nose up', 'nose down'),
  }),
  needs: (p) => [p.on],
  expand(name, p, build) {
    const body = build.body(name, p.on);
    const coordinate = build.hinge(name, body, p.pivot, 1);
    build.stops(coordinate, { bump: p.bump, droop: p.droop, stiffness: p.stopStiffness }, 0);
    return { body, coordinate, unit: 'rad', lines: [], pins: [{ body, at: p.pivot }] };
  },
  sample: { on: 'chassis', pivot: { x: '-90 mm', z: '55 mm' } },
});
