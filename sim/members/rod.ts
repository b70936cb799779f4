import { z } from 'zod';
import { distance } from '../../shared/geometry/vec.ts';
import { placedPoint } from './fields.ts';
import { defineMember } from './member.ts';

/** A massless rod between two members, of the length that it has in the drawing: it closes a loop. */
export const rod = defineMember({
  kind: 'rod',
  title: 'Rod',
  source: 'massless link of fixed length, textbooks on mechanisms',
  fields: z.strictObject({
    from: placedPoint('One end, in the drawing.'),
    to: placedPoint('The other end, in the drawing.'),
  }),
  needs: (p) => [p.from.on, p.to.on],
  expand(name, p, build) {
    const a = { body: build.bodyOf(p.from.on), at: { x: p.from.x, z: p.from.z } };
    const b = { body: build.bodyOf(p.to.on), at: { x: p.to.x, z: p.to.z } };
    if (a.body === b.body)
      build.problem(
        'to',
        'lies on the same body as the other end, so the rod holds nothing',
        'join two members that move against each other',
      );
    else if (distance(a.at, b.at) === 0)
      build.problem(
        'to',
        'lies on the other end, so the rod has no length',
        'use a hinge (arm, beam or housing) for a pin',
      );
    else build.rod(name, a, b);
    return { body: -1, unit: 'm', lines: [{ from: a, to: b, weight: 'load' }], pins: [a, b] };
  },
  sample: { from: { on: 'chassis', x: 0, z: '90 mm' }, to: { on: 'rear-axle', x: '-90 mm', z: '85 mm' } },
});
