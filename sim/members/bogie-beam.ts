import { z } from 'zod';
import { distance } from '../../shared/geometry/vec.ts';
import { point } from '../../shared/schema/quantity.ts';
import { onField, turnStops } from './fields.ts';
import { defineMember } from './member.ts';

/** A beam that rocks about a pivot between its ends; also a rocker that carries another beam. Nose-up positive. */
export const bogieBeam = defineMember({
  kind: 'bogie-beam',
  title: 'Bogie beam',
  source: 'common practice, no source',
  fields: z.strictObject({
    on: onField,
    pivot: point('Pivot on the parent, in the drawing.'),
    front: point('Front end: a hub, or the pivot of what it carries.'),
    rear: point('Rear end: a hub, or the pivot of what it carries.'),
    ...turnStops('front end rising', 'front end falling'),
  }),
  needs: (p) => [p.on],
  expand(name, p, build) {
    const body = build.body(name, p.on);
    const coordinate = build.hinge(name, body, p.pivot, 1);
    if (p.front.x <= p.rear.x)
      build.problem('front', 'does not lie ahead of the rear end', 'swap front and rear: x points forward');
    if (p.pivot.x >= p.front.x || p.pivot.x <= p.rear.x) {
      build.problem(
        'pivot',
        'lies outside the ends of its beam, so the beam cannot carry anything level',
        'move the pivot between rear.x and front.x',
      );
    }
    build.stops(
      coordinate,
      { bump: p.bump, droop: p.droop, stiffness: p.stopStiffness },
      Math.max(distance(p.pivot, p.front), distance(p.pivot, p.rear)),
    );
    const at = [p.front, p.pivot, p.rear].map((point) => ({ body, at: point }));
    const [front, pivot, rear] = at as [(typeof at)[0], (typeof at)[0], (typeof at)[0]];
    const lines = [
      { from: front, to: pivot, weight: 'load' as const },
      { from: pivot, to: rear, weight: 'load' as const },
    ];
    return { body, coordinate, unit: 'rad', lines, pins: at };
  },
  sample: {
    pivot: { x: '-130 mm', z: '75 mm' },
    front: { x: '-65 mm', z: '55 mm' },
    rear: { x: '-195 mm', z: '55 mm' },
  },
});
