import { z } from 'zod';
import { distance } from '../../shared/geometry/vec.ts';
import { point } from '../../shared/schema/quantity.ts';
import { onField, turnStops } from './fields.ts';
import { defineMember } from './member.ts';

/** A leading or trailing arm that swings about a pivot; its turn is positive where its end rises. */
export const arm = defineMember({
  kind: 'arm',
  title: 'Swinging arm',
  source: 'common practice, no source',
  fields: z.strictObject({
    on: onField,
    pivot: point('Pivot on the parent, in the drawing.'),
    end: point('Other end: the hub, or the pin of what the arm carries.'),
    ...turnStops('end rising', 'end falling'),
  }),
  needs: (p) => [p.on],
  expand(name, p, build) {
    const body = build.body(name, p.on);
    const coordinate = build.hinge(name, body, p.pivot, p.end.x >= p.pivot.x ? 1 : -1);
    const lever = distance(p.pivot, p.end);
    if (lever === 0)
      build.problem('end', 'lies on the pivot, so the arm has no length', 'move the end or the pivot');
    build.stops(coordinate, { bump: p.bump, droop: p.droop, stiffness: p.stopStiffness }, lever);
    const lines = [{ from: { body, at: p.pivot }, to: { body, at: p.end }, weight: 'load' as const }];
    return {
      body,
      coordinate,
      unit: 'rad',
      lines,
      pins: [
        { body, at: p.pivot },
        { body, at: p.end },
      ],
    };
  },
  sample: { pivot: { x: 0, z: '70 mm' }, end: { x: '-60 mm', z: '55 mm' }, bump: '20 deg', droop: '20 deg' },
});
