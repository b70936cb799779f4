import { didYouMean } from '../../shared/near.ts';
import type { Checked } from '../../shared/problem.ts';
import type { Measure } from '../../shared/report.ts';
import type { Run } from '../report/criterion.ts';
import { measureKinds } from '../report/measures/registry.ts';
import type { Scenario } from '../scenario/schema.ts';
import { type Better, type Choice, chooseMeasure, measuresOfCrossings, rowOf } from '../studies/choice.ts';
import type { StudyDocument } from './document.ts';

/** What a study wants more or less of. Plain data. */
export interface Goal {
  /** As it is written: 'leastLoadShare', 'mass'. */
  readonly text: string;
  readonly want: Better;
  /** How the values of several grounds become one. */
  readonly over: 'mean' | 'worst';
  readonly looks:
    | { readonly at: 'crossing'; readonly choice: Choice }
    | { readonly at: 'drive'; readonly name: DriveMeasure }
    | { readonly at: 'mass' };
}

/** Measures that only a driven run has: the kind that gives them, and which way they are better. */
const measuresOfDrives = {
  heaveAccelerationUp: ['chassis', 'less'],
  heaveAccelerationDown: ['chassis', 'more'],
  timeTaken: ['time', 'less'],
} as const satisfies Record<string, readonly [kind: (typeof measureKinds)[number]['name'], better: Better]>;

type DriveMeasure = keyof typeof measuresOfDrives;

/** Reads a goal of a study. `driven`: whether its designs are driven, so that measures of a drive may be asked. */
export function goalOf(
  { measure, want, over }: StudyDocument['goals'][number],
  scenario: Pick<Scenario, 'criteria'>,
  driven: boolean,
): Checked<Goal> {
  const made = (looks: Goal['looks'], usual: Better): Checked<Goal> => ({
    ok: true,
    value: { text: measure, want: want ?? usual, over, looks },
    problems: [],
  });
  if (measure === 'mass') return made({ at: 'mass' }, 'less');
  if (Object.hasOwn(measuresOfDrives, measure)) {
    const name = measure as DriveMeasure;
    if (driven) return made({ at: 'drive', name }, measuresOfDrives[name][1]);
    return refused(`'${measure}' needs a driven run`, `write "run": { "by": "drive" }`);
  }
  const chosen = chooseMeasure(measure, scenario);
  if (chosen.ok) return made({ at: 'crossing', choice: chosen.value }, chosen.value.better);
  const known = [...Object.keys(measuresOfCrossings), ...Object.keys(measuresOfDrives), 'mass'];
  const near = didYouMean(measure, known);
  return near === undefined ? chosen : refused(`'${measure}' is no measure of a study`, near);
}

function refused(message: string, hint: string): Checked<never> {
  return { ok: false, problems: [{ path: '', message, hint, severity: 'error' }] };
}

/** A value of a goal, with what it is. */
export interface Reading {
  readonly title: string;
  /** SI unit; '1' for shares. */
  readonly unit: string;
  readonly value: number | null;
}

/** What a run has of a goal; undefined when the vehicle has nothing of that name. */
export function readingOf({ looks, want }: Goal, scenario: Scenario, run: Run): Reading | undefined {
  if (looks.at === 'mass') return { title: 'Mass of the vehicle', unit: 'kg', value: run.mechanism.mass };
  if (looks.at === 'crossing') return rowOf({ ...looks.choice, better: want }, scenario, run);
  const [kind] = measuresOfDrives[looks.name];
  return measureKinds
    .filter(({ name }) => name === kind)
    .flatMap((each) => each.measure(run))
    .find(({ name }): boolean => name === looks.name) as Measure | undefined;
}
