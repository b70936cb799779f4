import { z } from 'zod';
import { quantity } from '../../shared/schema/quantity.ts';
import { estimatedField, estimatedTorque } from '../strength/torque.ts';

/**
 * Torque that ONE part may carry, N·m, at its output. `how`: given by the maker, measured by the builder, or estimated
 * from material and section. `spread`: relative, ± around the torque.
 */
export interface Rating {
  readonly torque: number;
  readonly how: 'given' | 'measured' | 'estimate';
  readonly spread: number;
}

const torque = quantity('torque', 'Torque that ONE part may carry at its output.', { above: 0, most: 1e9 });

const measured = z
  .strictObject({
    lever: quantity('length', 'Length of the lever, from the axis to where the scale pulls.', {
      above: 0,
      most: 10,
    }),
    force: quantity('force', 'What the scale showed when the part gave way.', {
      above: 0,
      most: 1e7,
    }).optional(),
    reading: quantity('mass', 'The same as a mass, for scales that show kilograms.', {
      above: 0,
      most: 1e6,
    }).optional(),
    spread: quantity('ratio', 'How far repeats lie apart: ± this share.', { least: 0, below: 1 }).default(
      0.1,
    ),
  })
  .superRefine((m, context) => {
    if ((m.force === undefined) === (m.reading === undefined))
      context.addIssue({
        code: 'custom',
        message: 'needs what the scale showed once: as `force` or as `reading`',
        path: ['force'],
      });
  })
  .meta({ description: 'Measured with a lever and a scale on a part that may break; wear eye protection.' });

/** A rating as a document has it. */
export const ratingField = z
  .union([torque, z.strictObject({ measured }), z.strictObject({ estimated: estimatedField })])
  .meta({
    description:
      'Torque that ONE part may carry at its output: a torque, or {"measured": {"lever", "force"}} from a lever and a scale, or {"estimated": {"material", "section" or "gear"}}.',
  });

/** Standard gravity, m/s², for scales that show kilograms. Exact by definition (SI brochure). */
const standardGravity = 9.80665;

/** A rating of the document in SI. */
export function ratingOf(field: z.output<typeof ratingField>): Rating {
  if (typeof field === 'number') return { torque: field, how: 'given', spread: 0 };
  if ('estimated' in field) return { ...estimatedTorque(field.estimated), how: 'estimate' };
  const { lever, force, reading, spread } = field.measured;
  return { torque: lever * (force ?? (reading ?? 0) * standardGravity), how: 'measured', spread };
}
