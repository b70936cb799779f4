import { z } from 'zod';
import { point } from '../../shared/schema/quantity.ts';
import { onField } from './fields.ts';
import { defineMember } from './member.ts';

/** An axle bolted to its parent: no body of its own. */
export const rigidAxle = defineMember({
  kind: 'rigid-axle',
  title: 'Rigid axle',
  source: 'common practice, no source',
  fields: z.strictObject({ on: onField, at: point('Axle centre in the drawing.') }),
  needs: (p) => [p.on],
  expand(_name, p, build) {
    const body = build.bodyOf(p.on);
    return { body, unit: 'm', lines: [], pins: [{ body, at: p.at }] };
  },
  sample: { at: { x: 0, z: '55 mm' } },
});
