import { z } from 'zod';
import { nameOf } from '../../../shared/schema/quantity.ts';
import { listWords, sentence, theWheel } from '../words.ts';

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

/** 'Every wheel', 'The front wheel', or 'Each of the wheels front and rear'. */
export function everyWheel(wheels: readonly string[] | undefined): string {
  if (wheels === undefined) return 'Every wheel';
  const [only = ''] = wheels;
  return wheels.length === 1 ? theWheel(only) : `Each of the wheels ${listWords(wheels)}`;
}

/**
 * That none of the chosen does something: 'No wheel leaves the ground', 'The front wheel does not leave the ground', 'None
 * of the wheels front and rear leaves the ground'. `does` and `doesNot` are the two forms of the rest.
 */
export function none(
  what: 'wheel' | 'member',
  chosen: readonly string[] | undefined,
  does: string,
  doesNot: string,
): string {
  if (chosen === undefined) return `No ${what} ${does}`;
  const [only = ''] = chosen;
  if (chosen.length === 1) return `${what === 'wheel' ? theWheel(only) : sentence(only)} ${doesNot}`;
  return `None of the ${what}s ${listWords(chosen)} ${does}`;
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
