import { criterionKinds } from '../report/criteria/registry.ts';
import type { CriterionKind } from '../report/criterion.ts';
import type { Scenario } from '../scenario/schema.ts';

/** What must hold, in words, one per entry of `short`: the criteria, then getting across, named as the criterion that asks for it. */
export function judgeWords(criteria: Scenario['criteria']): string[] {
  const kinds = criterionKinds as readonly unknown[] as readonly CriterionKind[];
  const words = criteria.map((criterion) => {
    const kind = kinds.find((each) => each.kind === criterion.kind);
    return kind?.asks(criterion as never) ?? criterion.kind;
  });
  const reaches = criteria.findIndex((c) => c.kind === 'reaches' && c.station === undefined);
  return [...words, words[reaches] ?? 'The vehicle gets across'];
}
