import { z } from 'zod';
import { point, quantity } from '../../shared/schema/quantity.ts';
import { onField, travelStops } from './fields.ts';
import { defineMember } from './member.ts';

/** A beam axle that a guide lets move along one line only. */
export const guidedAxle = defineMember({
  kind: 'guided-axle',
  title: 'Beam axle on a guide',
  source: 'common practice, no source',
  fields: z.strictObject({
    on: onField,
    at: point('Axle centre in the drawing.'),
    lean: quantity('angle', 'Lean of the guide from the vertical, top rearward positive.', {
      above: -1.5,
      below: 1.5,
    }).default(0),
    ...travelStops,
  }),
  needs: (p) => [p.on],
  expand(name, p, build) {
    const body = build.body(name, p.on);
    const axis = { x: -Math.sin(p.lean), z: Math.cos(p.lean) };
    const coordinate = build.slide(name, body, axis, p.at);
    build.stops(coordinate, { bump: p.bump, droop: p.droop, stiffness: p.stopStiffness }, 1);
    return { body, coordinate, unit: 'm', lines: [], pins: [{ body, at: p.at }] };
  },
  sample: { at: { x: '200 mm', z: '55 mm' }, bump: '20 mm', droop: '20 mm' },
});
