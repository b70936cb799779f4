import { z } from 'zod';
import { nameOf } from '../../../shared/schema/quantity.ts';
import { listWords } from '../words.ts';

/** Optional list of wheels that a criterion is about. */
export const wheelsField = z
  .array(nameOf('Wheel name.'))
  .min(1)
  .max(100)
  .optional()
  .meta({ description: 'Axle lines that it is about, by name; all of them when left out.' });

/** Optional list of members that a criterion is about. */
export const membersField = z
  .array(nameOf('Member name.'))
  .min(1)
  .max(200)
  .optional()
  .meta({ description: 'Members that it is about, by name; all of them when left out.' });

/** 'Every wheel', 'Wheel front', or 'Each of the wheels front and rear'. */
export function everyWheel(wheels: readonly string[] | undefined): string {
  if (wheels === undefined) return 'Every wheel';
  return wheels.length === 1 ? `Wheel ${wheels[0]}` : `Each of the wheels ${listWords(wheels)}`;
}

/** 'No wheel', or 'None of the wheels front and rear'. */
export function noWheel(wheels: readonly string[] | undefined): string {
  return wheels === undefined ? 'No wheel' : `None of the wheels ${listWords(wheels)}`;
}

/** 'No member', or 'None of the members front and rear'. */
export function noMember(members: readonly string[] | undefined): string {
  return members === undefined ? 'No member' : `None of the members ${listWords(members)}`;
}

/** Indices of the chosen names; all when nothing is chosen. Names that the vehicle does not have are left out. */
export function chosenOf(names: readonly string[], chosen: readonly string[] | undefined): readonly number[] {
  return names.flatMap((name, index) => (chosen === undefined || chosen.includes(name) ? [index] : []));
}

/** Chosen names that the vehicle does not have. */
export function unknownOf(
  names: readonly string[],
  chosen: readonly string[] | undefined,
): readonly string[] {
  return (chosen ?? []).filter((name) => !names.includes(name));
}
