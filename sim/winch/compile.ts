import { didYouMean } from '../../shared/near.ts';
import type { Problems } from '../../shared/problem.ts';
import type { Driveline } from '../driveline/driveline.ts';
import type { MotorLaw } from '../driveline/part.ts';
import { ratingOf } from '../driveline/rating.ts';
import type { WinchEntry } from './fields.ts';
import type { Winch } from './winch.ts';

/** What winches are fitted into. */
export interface WinchFitting {
  readonly bodyOf: ReadonlyMap<string, number>;
  readonly driveline: Driveline | undefined;
  readonly problems: Problems;
}

/** Compiles the winches of a document. A power take-off from a part that does not exist is a problem. */
export function compileWinches(
  entries: readonly WinchEntry[],
  { bodyOf, driveline, problems }: WinchFitting,
): Winch[] {
  return entries.map((entry, index) => {
    const { reduction } = entry;
    const body = bodyOf.get(entry.on);
    if (body === undefined)
      problems.error(
        `vehicle.winches[${index}].on`,
        `no member with a body is called '${entry.on}'`,
        `known: ${[...bodyOf.keys()].join(', ')}`,
      );
    const from =
      entry.from === undefined
        ? -1
        : partNamed(entry.from, `vehicle.winches[${index}].from`, driveline, problems);
    return {
      name: entry.name,
      index,
      body: body ?? 0,
      at: entry.at,
      rope: entry.rope,
      drum: entry.drum,
      reduction: {
        ratio: reduction?.ratio ?? 1,
        efficiency: reduction?.efficiency ?? 1,
        locks: reduction?.locks ?? false,
        rating: reduction?.rating === undefined ? undefined : ratingOf(reduction.rating),
      },
      motor: entry.motor && motorOf(entry.motor),
      from,
      brake: entry.brake,
      task: entry.task,
    };
  });
}

function partNamed(name: string, path: string, driveline: Driveline | undefined, problems: Problems): number {
  const names = (driveline?.parts ?? []).map((part) => part.name);
  const from = names.indexOf(name);
  if (from < 0)
    problems.error(
      path,
      names.length === 0
        ? `names '${name}', and the vehicle has no drive line`
        : `no part of the drive line is called '${name}'`,
      names.length === 0
        ? 'give the winch a motor of its own'
        : (didYouMean(name, names) ?? `known: ${names.join(', ')}`),
    );
  return from;
}

/** The motor's figures without those that were left out. */
function motorOf(entry: NonNullable<WinchEntry['motor']>): MotorLaw {
  const { stallTorque, noLoadSpeed, ...rest } = entry;
  const known = Object.fromEntries(Object.entries(rest).filter(([, value]) => value !== undefined));
  return { stallTorque, noLoadSpeed, inertia: 0, ...known };
}
