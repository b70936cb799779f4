import { didYouMean } from '../../shared/near.ts';
import type { Checked } from '../../shared/problem.ts';
import type { Measure, Verdict } from '../../shared/report.ts';
import { criterionKinds } from '../report/criteria/registry.ts';
import type { CriterionKind, Run } from '../report/criterion.ts';
import { measureKinds } from '../report/measures/registry.ts';
import type { Scenario } from '../scenario/schema.ts';

/** Which way is better: 'more' of it, or 'less'. */
export type Better = 'more' | 'less';

/** Every measure of a crossing in balance: the kind that gives it, and which way it is better. */
export const measuresOfCrossings = {
  leastLoadShare: ['leastLoad', 'more'],
  wheelLeastLoad: ['leastLoad', 'more'],
  wheelLeastLoadShare: ['leastLoad', 'more'],
  greatestLoadShare: ['greatestLoad', 'less'],
  wheelGreatestLoadShare: ['greatestLoad', 'less'],
  longestOff: ['timeOffGround', 'less'],
  wheelTimeOff: ['timeOffGround', 'less'],
  wheelLongestOff: ['timeOffGround', 'less'],
  bogieLoadSpread: ['loadSpread', 'less'],
  bogieMeanLoadSpread: ['loadSpread', 'less'],
  wheelDynamicLoadCoefficient: ['dynamicLoad', 'less'],
  memberBump: ['travel', 'less'],
  memberDroop: ['travel', 'less'],
  memberBumpUsed: ['travel', 'less'],
  memberDroopUsed: ['travel', 'less'],
  pitchUp: ['chassis', 'less'],
  pitchDown: ['chassis', 'more'],
  leastClearance: ['clearance', 'more'],
  greatestGripUse: ['grip', 'less'],
  wheelGripUse: ['grip', 'less'],
  wheelTyreDepth: ['tyreDepth', 'less'],
  stationReached: ['distance', 'more'],
  distance: ['distance', 'more'],
} as const satisfies Record<string, readonly [kind: (typeof measureKinds)[number]['name'], better: Better]>;

/**
 * Measures that a study does not look at: a crossing in balance has no inertia, no clock and no substep, and the forces of
 * the ground are not recorded.
 */
export const otherMeasures = [
  'bogieDriveShift',
  'bogieEvenPivot',
  'heaveAccelerationUp',
  'heaveAccelerationDown',
  'timeTaken',
  'energyResidual',
] as const;

/** For every kind of criterion, which way its value is better. */
export const criteriaBetter = {
  'wheel-load': 'more',
  'time-off-ground': 'less',
  'no-stop-hit': 'less',
  reaches: 'more',
  'belly-clearance': 'more',
  pitch: 'less',
  'grip-use': 'less',
  'load-spread': 'less',
  'travel-used': 'less',
  time: 'less',
  'part-use': 'less',
  mass: 'less',
} as const satisfies Record<(typeof criterionKinds)[number]['kind'], Better>;

/** What a study looks at: a measure, of one wheel or member where that is said, or the value of a criterion. */
export interface Choice {
  /** As it is written: 'leastLoadShare', 'wheelLeastLoad[rear]', 'criteria[0]'. */
  readonly text: string;
  readonly better: Better;
  readonly of?: string;
  readonly about:
    | { readonly kind: 'measure'; readonly name: keyof typeof measuresOfCrossings }
    | { readonly kind: 'criterion'; readonly index: number };
}

/** What a study looks at when nothing is said: the least share of its standing load that any wheel keeps. */
export const usualChoice = 'leastLoadShare';

/**
 * Reads a choice: the name of a measure, with a wheel, member or bogie in brackets where it is given for each (without
 * one the worst of them counts), or 'criteria[n]'.
 */
export function chooseMeasure(text: string, scenario: Pick<Scenario, 'criteria'>): Checked<Choice> {
  const [, name = '', of] = /^\s*([A-Za-z]+)\s*(?:\[\s*([^\]]+?)\s*\])?\s*$/.exec(text) ?? [];
  if (name === 'criteria') return chooseCriterion(text, of, scenario);
  if (Object.hasOwn(measuresOfCrossings, name)) {
    const measure = name as keyof typeof measuresOfCrossings;
    const better = measuresOfCrossings[measure][1];
    const about = { kind: 'measure', name: measure } as const;
    return { ok: true, value: { text, better, about, ...(of === undefined ? {} : { of }) }, problems: [] };
  }
  const known = Object.keys(measuresOfCrossings);
  const hint = didYouMean(name, known) ?? `there are ${known.join(', ')}, and criteria[0], criteria[1] …`;
  return refused(`'${text}' is no measure of a crossing`, hint);
}

function chooseCriterion(
  text: string,
  written: string | undefined,
  { criteria }: Pick<Scenario, 'criteria'>,
): Checked<Choice> {
  const index = Number(written);
  const criterion = written === undefined ? undefined : criteria[index];
  if (criterion === undefined)
    return refused(
      `'${text}' is no criterion of this scenario`,
      criteria.length === 0 ? 'it has none' : `write criteria[0] to criteria[${criteria.length - 1}]`,
    );
  const better = criteriaBetter[criterion.kind];
  return { ok: true, value: { text, better, about: { kind: 'criterion', index } }, problems: [] };
}

function refused(message: string, hint: string): Checked<never> {
  return { ok: false, problems: [{ path: '', message, hint, severity: 'error' }] };
}

/** A value of the chosen measure, with what it is: a row of the report. */
export type Row = Pick<Measure, 'title' | 'says' | 'unit' | 'value' | 'of' | 'moment'>;

/** The chosen measure of a run; undefined when the vehicle has nothing of that name. */
export function rowOf({ about, of, better }: Choice, scenario: Scenario, run: Run): Row | undefined {
  if (about.kind === 'criterion') {
    const verdict = judge(scenario.criteria[about.index], run);
    return verdict && { title: `Criterion ${about.index}: ${verdict.asks}`, ...verdict };
  }
  const [kind] = measuresOfCrossings[about.name];
  const rows = measureKinds
    .filter(({ name }) => name === kind)
    .flatMap((each) => each.measure(run))
    .filter((row) => row.name === about.name && (of === undefined || row.of === of));
  return rows.reduce<Measure | undefined>(
    (worst, row) => (isWorse(row, worst, better) ? row : worst),
    undefined,
  );
}

function isWorse({ value }: Measure, worst: Measure | undefined, better: Better): boolean {
  if (worst === undefined) return true;
  if (value === null || worst.value === null) return value !== null;
  return better === 'more' ? value < worst.value : value > worst.value;
}

/** What one criterion of a scenario says of a run. */
export function judge(
  criterion: Scenario['criteria'][number] | undefined,
  run: Run,
): (Omit<Verdict, 'index'> & { readonly asks: string }) | undefined {
  const kinds = criterionKinds as readonly unknown[] as readonly CriterionKind[];
  const kind = kinds.find((each) => each.kind === criterion?.kind);
  if (kind === undefined || criterion === undefined) return undefined;
  const params = criterion as never;
  return { kind: kind.kind, asks: kind.asks(params), ...kind.judge(params, run) };
}
