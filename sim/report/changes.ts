import type { Measure, Report, Verdict, WheelReport } from '../../shared/report.ts';

/** A measure that differs between two reports. */
export interface MeasureChange {
  readonly kind: 'measure';
  readonly name: string;
  readonly title: string;
  readonly unit: string;
  readonly of?: string;
  /** Values in SI; null where that report has none. */
  readonly before: number | null;
  readonly after: number | null;
  /** after − before, SI; null where one of them is missing. */
  readonly difference: number | null;
}

/** A verdict that differs between two reports, matched by what it asks; where the limit was edited, by its kind. */
export interface VerdictChange {
  readonly kind: 'verdict';
  readonly asks: string;
  /** The verdicts themselves; undefined where that report did not ask. */
  readonly before: Verdict | undefined;
  readonly after: Verdict | undefined;
  readonly difference: number | null;
  /** Which way it turned; 'same' when only the worst value moved. */
  readonly turn: 'now passes' | 'now fails' | 'same' | 'new' | 'gone';
}

/** A figure of the vehicle or of one axle line that differs: mass, centre of gravity, standing load. */
export interface FigureChange {
  readonly kind: 'figure';
  readonly name: string;
  readonly title: string;
  readonly unit: string;
  readonly of?: string;
  readonly before: number | null;
  readonly after: number | null;
  readonly difference: number | null;
}

export type Change = VerdictChange | FigureChange | MeasureChange;

/**
 * Differences below this share of the larger value are rounding, not change: doubles carry 16 digits, sums lose some.
 * Shares (unit '1') are compared with 1: next to a share of 0 any rounding would look large.
 */
const rounding = 1e-12;

/**
 * What changed from one report to the next: verdicts first (those that turned before those that only moved), then
 * figures of the vehicle and its wheels, then measures in the order of the later report. Equal things are left out.
 */
export function compareReports(before: Report, after: Report): readonly Change[] {
  const turned = (change: VerdictChange) => change.turn !== 'same';
  const verdicts = verdictChanges(before.verdicts, after.verdicts);
  return [
    ...verdicts.filter(turned),
    ...verdicts.filter((change) => !turned(change)),
    ...figureChanges(before, after),
    ...measureChanges(before.measures, after.measures),
  ];
}

/** after − before, or null where one is missing or the difference is past all bounds. */
function differenceOf(before: number | null | undefined, after: number | null | undefined): number | null {
  if (before == null || after == null) return null;
  const difference = after - before;
  return Number.isFinite(difference) ? difference : null;
}

function same(before: number | null | undefined, after: number | null | undefined, unit: string): boolean {
  if (before == null || after == null) return (before ?? null) === (after ?? null);
  return (
    Math.abs(after - before) <= rounding * Math.max(Math.abs(before), Math.abs(after), unit === '1' ? 1 : 0)
  );
}

function verdictChanges(before: readonly Verdict[], after: readonly Verdict[]): readonly VerdictChange[] {
  const pairs = paired(before, after, ({ kind, asks }) => `${kind} ${asks}`);
  const edited = paired(
    pairs.flatMap(([was, is]) => (was !== undefined && is === undefined ? [was] : [])),
    pairs.flatMap(([was, is]) => (was === undefined && is !== undefined ? [is] : [])),
    ({ kind }) => kind,
  );
  const kept = pairs.filter(([was, is]) => was !== undefined && is !== undefined);
  return [...kept, ...edited]
    .flatMap(([was, is]) => verdictChange(was, is) ?? [])
    .sort(
      (a, b) =>
        (a.after?.index ?? before.length + after.length) - (b.after?.index ?? before.length + after.length),
    );
}

function verdictChange(was: Verdict | undefined, is: Verdict | undefined): VerdictChange | undefined {
  const asks = (is ?? was)?.asks ?? '';
  const change = {
    kind: 'verdict',
    asks,
    before: was,
    after: is,
    difference: differenceOf(was?.value, is?.value),
  } as const;
  if (was === undefined) return { ...change, turn: 'new' };
  if (is === undefined) return { ...change, turn: 'gone' };
  if (was.pass !== is.pass) return { ...change, turn: is.pass ? 'now passes' : 'now fails' };
  const still = was.asks === is.asks && same(was.value, is.value, is.unit) && was.of === is.of;
  return still ? undefined : { ...change, turn: 'same' };
}

function measureChanges(before: readonly Measure[], after: readonly Measure[]): readonly MeasureChange[] {
  return paired(before, after, keyOf).flatMap(([was, is]) => {
    const either = is ?? was;
    if (either === undefined || same(was?.value, is?.value, either.unit)) return [];
    const { name, title, unit } = either;
    return [{ kind: 'measure', name, title, unit, ...ofIt(either), ...beforeAfter(was?.value, is?.value) }];
  });
}

/** Overall measures name the wheel that was worst, which may change: only per-thing ones are matched by it. */
const keyOf = ({ name, of }: Measure) =>
  /^(wheel|bogie|member)[A-Z]/.test(name) ? `${name} ${of ?? ''}` : name;

const ofIt = ({ of }: { readonly of?: string }) => (of === undefined ? {} : { of });

function beforeAfter(before: number | null | undefined, after: number | null | undefined) {
  return { before: before ?? null, after: after ?? null, difference: differenceOf(before, after) };
}

function figureChanges(before: Report, after: Report): readonly FigureChange[] {
  const rows: readonly (readonly [name: string, title: string, unit: string, was: number, is: number])[] = [
    ['mass', 'Mass', 'kg', before.mass, after.mass],
    ['cgX', 'Centre of gravity, forward', 'm', before.cg.x, after.cg.x],
    ['cgZ', 'Centre of gravity, height', 'm', before.cg.z, after.cg.z],
    ['pitchInertia', 'Pitch inertia', 'kg·m²', before.pitchInertia, after.pitchInertia],
  ];
  const whole = rows.flatMap(([name, title, unit, was, is]): FigureChange[] =>
    same(was, is, unit) ? [] : [{ kind: 'figure', name, title, unit, ...beforeAfter(was, is) }],
  );
  return [
    ...whole,
    ...paired(before.wheels, after.wheels, (wheel) => wheel.id).flatMap(([was, is]) => wheelChanges(was, is)),
  ];
}

function wheelChanges(was: WheelReport | undefined, is: WheelReport | undefined): readonly FigureChange[] {
  const of = (is ?? was)?.id ?? '';
  const rows = [
    ['standingLoad', 'Standing load', 'N', was?.load, is?.load],
    ['standingTravel', 'Standing travel', 'm', was?.travel, is?.travel],
  ] as const;
  return rows.flatMap(([name, title, unit, a, b]): FigureChange[] =>
    same(a, b, unit) ? [] : [{ kind: 'figure', name, title, unit, of, ...beforeAfter(a, b) }],
  );
}

/** Pairs two lists by key, the n-th of a key with the n-th; order of `after`, then what is only in `before`. */
function paired<T>(
  before: readonly T[],
  after: readonly T[],
  key: (item: T) => string,
): readonly (readonly [T | undefined, T | undefined])[] {
  const waiting = new Map<string, T[]>();
  for (const item of before) waiting.set(key(item), [...(waiting.get(key(item)) ?? []), item]);
  const pairs = after.map((item) => [waiting.get(key(item))?.shift(), item] as const);
  return [...pairs, ...[...waiting.values()].flat().map((item) => [item, undefined] as const)];
}
