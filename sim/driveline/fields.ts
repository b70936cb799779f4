import { z } from 'zod';
import { nameOf, point, quantity } from '../../shared/schema/quantity.ts';
import { ratingField } from './rating.ts';

/** Fields that all parts of a drive line have, besides name and kind. */
export const partFields = {
  from: z
    .union([nameOf('Part that turns it.'), z.array(nameOf('Part that turns it.')).min(1).max(16)])
    .optional()
    .meta({ description: 'Part that turns it; several for motors on one shaft. Motors have none.' }),
  wheels: z
    .array(nameOf('Axle line.'))
    .max(16)
    .default([])
    .meta({ description: 'Axle lines that its output turns.' }),
  on: nameOf(
    "Member that holds it, or 'chassis'. When left out: the chassis; for a hub reduction the carrier of its wheels.",
  ).optional(),
  at: point('Where it sits, its centre of mass in the drawing.').optional(),
  mass: quantity('mass', 'Mass of ONE; 0 when a mass item has it already.', { least: 0, most: 1e6 }).default(
    0,
  ),
  count: z
    .int()
    .min(1)
    .max(100)
    .default(1)
    .meta({ description: 'Equal ones side by side (left and right): each carries its part.', unit: '1' }),
  rating: ratingField.optional(),
};
