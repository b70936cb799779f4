import { z } from 'zod';
import { quantity } from '../../../shared/schema/quantity.ts';
import { definePart, straightThrough } from '../part.ts';
import { angledOf, jointFields } from './joint.ts';

/** A joint with a cross: its output speeds up and slows down twice a turn, more so the more it bends. */
export const universalJoint = definePart({
  kind: 'universal-joint',
  title: 'Universal joint',
  sort: 'joint',
  source: 'kinematics of the cardan joint, machine design texts',
  fields: z.strictObject({
    ...jointFields,
    phase: quantity(
      'angle',
      "Turn of its yoke towards the wheels against the next joint's yoke on that shaft: 0 aligned, 90 deg crossed.",
      { least: -Math.PI, most: Math.PI },
    ).default(0),
    efficiency: quantity('ratio', 'Share of the power that passes.', { above: 0, most: 1 }).optional(),
  }),
  law: ({ efficiency, phase, ...joint }) => ({
    ...straightThrough,
    // common practice, no source: a greased cross loses about 1 % at small angles
    driving: efficiency ?? 0.99,
    backDriving: efficiency ?? 0.99,
    angled: angledOf('cardan', joint, phase),
    assumed: efficiency === undefined ? ['efficiency typical of a universal joint'] : [],
  }),
  sample: {},
});
