import { didYouMean } from '../../shared/near.ts';
import type { Problems } from '../../shared/problem.ts';
import type { DrivePart } from './driveline.ts';
import type { DrivelineEntry } from './entry.ts';

/**
 * Parts whose motors keep to the limit of the controller that they share: each gets an equal part of it. Unknown names
 * are problems.
 */
export function withControllers(
  parts: readonly DrivePart[],
  { controllers }: DrivelineEntry,
  problems: Problems,
): DrivePart[] {
  return parts.map((part): DrivePart => {
    const { motor } = part.law;
    if (motor?.controller === undefined) return part;
    const own = controllers.find(({ name }) => name === motor.controller);
    if (own === undefined) {
      const known = controllers.map(({ name }) => name);
      problems.error(
        `vehicle.driveline.parts[${part.index}].controller`,
        `no controller is called '${motor.controller}'`,
        didYouMean(motor.controller, known) ?? `known: ${known.join(', ') || 'none'}`,
      );
      return part;
    }
    const mates = parts.filter(({ law }) => law.motor?.controller === own.name);
    const each = own.currentLimit / mates.reduce((sum, { count }) => sum + count, 0);
    const currentLimit = Math.min(each, motor.currentLimit ?? Number.POSITIVE_INFINITY);
    return { ...part, law: { ...part.law, motor: { ...motor, currentLimit } } };
  });
}
