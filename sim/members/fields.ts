import { z } from 'zod';
import { nameOf, point, quantity } from '../../shared/schema/quantity.ts';

/** Parent of a member. */
export const onField = nameOf("What it hangs on: a member, or 'chassis'.").default('chassis');

/** A drawn point with the member that carries it. */
export const placedPoint = (says: string) =>
  z
    .strictObject({ on: nameOf("Member that carries the point, or 'chassis'."), ...point('').shape })
    .meta({ description: says });

/** Stop fields of a member that turns. */
export const turnStops = (up: string, down: string) => ({
  bump: quantity('angle', `Turn from the drawn position to the stop, ${up}.`, {
    above: 0,
    most: Math.PI,
  }).optional(),
  droop: quantity('angle', `Turn from the drawn position to the stop, ${down}.`, {
    above: 0,
    most: Math.PI,
  }).optional(),
  stopStiffness: quantity(
    'torsionStiffness',
    'Stiffness of the stops; a hard one that suits the weight when left out.',
    { above: 0 },
  ).optional(),
});

/** Stop fields of a member that moves along a line. */
export const travelStops = {
  bump: quantity('length', 'Travel from the drawn position up to the bump stop.', {
    above: 0,
    most: 10,
  }).optional(),
  droop: quantity('length', 'Travel from the drawn position down to the droop stop.', {
    above: 0,
    most: 10,
  }).optional(),
  stopStiffness: quantity(
    'stiffness',
    'Stiffness of the stops; a hard one that suits the weight when left out.',
    { above: 0 },
  ).optional(),
};
