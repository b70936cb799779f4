import { z } from 'zod';
import { quantity } from '../../../shared/schema/quantity.ts';
import { definePart, straightThrough } from '../part.ts';
import { angledOf, jointFields } from './joint.ts';

/** A joint whose output turns evenly at any angle. */
export const constantVelocityJoint = definePart({
  kind: 'constant-velocity-joint',
  title: 'Constant-velocity joint',
  sort: 'joint',
  source: 'constant-velocity joints, machine design texts; typical efficiency: common practice, no source',
  fields: z.strictObject({
    ...jointFields,
    efficiency: quantity('ratio', 'Share of the power that passes.', { above: 0, most: 1 }).optional(),
  }),
  law: ({ efficiency, ...joint }) => ({
    ...straightThrough,
    driving: efficiency ?? 0.98,
    backDriving: efficiency ?? 0.98,
    angled: angledOf('constant', joint, 0),
    assumed: efficiency === undefined ? ['efficiency typical of a constant-velocity joint'] : [],
  }),
  sample: {},
});
