import type { Problem } from '../../shared/problem.ts';
import type { Mechanism } from '../mechanism/mechanism.ts';
import { unknownOf } from './criteria/chosen.ts';
import { listWords } from './words.ts';

/** A criterion that may name wheels or members. */
interface Naming {
  readonly kind: string;
  readonly wheels?: readonly string[] | undefined;
  readonly members?: readonly string[] | undefined;
}

/**
 * Problems of criteria that name wheels or members which the vehicle does not have, at `criteria[i].wheels` or
 * `criteria[i].members`: to be told before anything runs.
 */
export function criterionNameProblems(
  criteria: readonly { readonly kind: string }[],
  mechanism: Pick<Mechanism, 'wheels' | 'members'>,
): readonly Problem[] {
  const names = {
    wheels: mechanism.wheels.map((w) => w.name),
    members: mechanism.members.map((m) => m.name),
  };
  return (criteria as readonly Naming[]).flatMap((criterion, index) =>
    (['wheels', 'members'] as const).flatMap((list) =>
      unknownOf(names[list], criterion[list]).map((name) =>
        unknown(`criteria[${index}].${list}`, list, name, names[list]),
      ),
    ),
  );
}

function unknown(path: string, list: 'wheels' | 'members', name: string, known: readonly string[]): Problem {
  const what = list === 'wheels' ? 'wheel' : 'member';
  const hint = known.length === 0 ? `the vehicle has no ${list}` : `its ${list} are ${listWords(known)}`;
  return { path, message: `the vehicle has no ${what} called '${name}'`, hint, severity: 'error' };
}
