import type { Ground, GroundSource } from '../../sim/ground/ground.ts';
import { layGround } from '../../sim/ground/lay.ts';
import { compile } from '../../sim/mechanism/compile.ts';
import { criterionKinds } from '../../sim/report/criteria/registry.ts';
import type { CriterionKind } from '../../sim/report/criterion.ts';
import { courseOf } from '../../sim/scenario/course.ts';
import type { Scenario } from '../../sim/scenario/schema.ts';
import type { Drawn } from './told.ts';

/** What a criterion of the document asks, as a sentence. */
function asksOf(criterion: Scenario['criteria'][number]): string {
  const kind = criterionKinds.find((each) => each.kind === criterion.kind) as CriterionKind | undefined;
  return kind?.asks(criterion) ?? criterion.kind;
}

/** No files beside the document: a page sees none. */
const noFiles: GroundSource = { file: () => undefined };

/**
 * What can be known of a scenario without driving it.
 * @throws Error naming the problems, if it was not read and checked before
 */
export function drawnOf(scenario: Scenario, laid?: Ground): Drawn {
  const ground = laid ?? groundOf(scenario);
  return {
    scenario,
    mechanism: compile(scenario),
    ground,
    vehicle: scenario.vehicle.name,
    start: courseOf(scenario, ground).start,
    asks: scenario.criteria.map(asksOf),
  };
}

function groundOf({ ground }: Scenario): Ground {
  const laid = layGround(ground, noFiles);
  if (!laid.ok) throw new Error(laid.problems.map(({ message }) => message).join('; '));
  return laid.value;
}
