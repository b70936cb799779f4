import type { Driveline, DrivePart } from './driveline.ts';
import { circuitOf } from './electric.ts';

/** The motors and engines of a drive line, and whether figures allow to tell their current. */
export function motorsOf({
  parts,
  supply,
}: Driveline): { readonly part: DrivePart; readonly index: number; readonly metered: boolean }[] {
  return parts.flatMap((part, index) => {
    const { motor } = part.law;
    if (motor === undefined) return [];
    return [{ part, index, metered: circuitOf(motor, supply?.voltage) !== undefined }];
  });
}
