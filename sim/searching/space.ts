import { type Problem, Problems } from '../../shared/problem.ts';

/** One thing that a search may choose. */
export type Axis =
  | {
      /** Any figure between two ends, or every `step` from the lower one on where there is a step. */
      readonly kind: 'range';
      readonly name: string;
      readonly from: number;
      readonly to: number;
      readonly step?: number | undefined;
    }
  | {
      /** Whole numbers: every `step` (1 when left out) from the lower one on. */
      readonly kind: 'integer';
      readonly name: string;
      readonly from: number;
      readonly to: number;
      readonly step?: number | undefined;
    }
  | {
      /** One of a list. A point holds its index, counted from 0. */
      readonly kind: 'list';
      readonly name: string;
      readonly values: readonly (number | string)[];
      /**
       * A figure for each value, by which values are near each other (the rates of springs); the values themselves
       * where all are numbers. Where neither is there, none is nearer than another.
       */
      readonly along?: readonly number[] | undefined;
    };

/** What a search may choose, in the order in which points hold it. */
export type Space = readonly Axis[];

/** One figure per axis: the value itself for a range or whole numbers, the index of the value for a list. */
export type Point = readonly number[];

/** Levels of a range without steps where nothing else is said. */
export const usualLevels = 5;

/** How many values an axis has; infinite for a range without steps. */
export function sizeOf(axis: Axis): number {
  if (axis.kind === 'list') return axis.values.length;
  const step = axis.step ?? (axis.kind === 'integer' ? 1 : undefined);
  if (step === undefined) return axis.from === axis.to ? 1 : Number.POSITIVE_INFINITY;
  // A step that fits up to rounding (0.1, 0.2, 0.3 from 0 to 0.3) counts as fitting.
  return Math.floor((axis.to - axis.from) / step + 1e-9) + 1;
}

/** The value of an axis by its number, counted from 0, for axes of finite size. */
export function valueAt(axis: Axis, index: number): number {
  if (axis.kind === 'list') return index;
  const step = axis.step ?? (axis.kind === 'integer' ? 1 : 0);
  return Math.min(axis.to, axis.from + index * step);
}

/** The values that a sweep along an axis takes, from the lower end to the upper one; `levels` for a plain range. */
export function valuesOf(axis: Axis, levels: number): readonly number[] {
  const size = sizeOf(axis);
  if (Number.isFinite(size)) return Array.from({ length: size }, (_, i) => valueAt(axis, i));
  const { from, to } = axis as Extract<Axis, { kind: 'range' }>;
  return Array.from({ length: levels }, (_, i) =>
    i === levels - 1 ? to : from + ((to - from) * i) / (levels - 1),
  );
}

/** The value at a share of an axis, 0 to 1: every value of an axis of finite size has an equal part of the way. */
export function valueAtShare(axis: Axis, share: number): number {
  const size = sizeOf(axis);
  if (Number.isFinite(size)) return valueAt(axis, Math.min(size - 1, Math.max(0, Math.floor(share * size))));
  const { from, to } = axis as Extract<Axis, { kind: 'range' }>;
  return from + (to - from) * Math.min(1, Math.max(0, share));
}

/** The middle of an axis: half-way, or the value in the middle of its values. */
export const middleOf = (axis: Axis): number => valueAtShare(axis, 0.5);

/** How many different points a space has; infinite with a plain range in it. */
export const pointsIn = (space: Space): number => space.reduce((all, axis) => all * sizeOf(axis), 1);

/** Two points are the same where this is. */
export const keyOf = (point: Point): string => point.join(' ');

/** What is wrong with the axes of a space, each told with its name. Empty: a search can begin. */
export function checkSpace(space: Space): readonly Problem[] {
  const problems = new Problems();
  if (space.length === 0) problems.error('', 'nothing varies', 'name at least one number that may vary');
  const names = new Set<string>();
  for (const axis of space) {
    if (names.has(axis.name)) problems.error(axis.name, 'varies twice', 'take one of the two out');
    names.add(axis.name);
    checkAxis(axis, problems);
  }
  return problems.list;
}

function checkAxis(axis: Axis, problems: Problems): void {
  const { name } = axis;
  if (axis.kind === 'list') {
    if (axis.values.length === 0) problems.error(name, 'has an empty list to choose from', 'give a value');
    if (axis.along !== undefined && axis.along.length !== axis.values.length)
      problems.error(name, `has ${axis.values.length} values and ${axis.along.length} figures for them`);
    return;
  }
  const { from, to, step } = axis;
  if (![from, to, step ?? 1].every(Number.isFinite)) {
    problems.error(name, 'has no finite range');
    return;
  }
  if (from > to)
    problems.error(name, `has its range upside down: from ${from} to ${to}`, 'write the lower end first');
  if (step !== undefined && !(step > 0)) problems.error(name, `has the step ${step}`, 'give one above 0');
  if (axis.kind === 'integer' && ![from, to, step ?? 1].every(Number.isInteger))
    problems.error(name, 'takes whole numbers and is given others', 'round its ends and its step');
}
