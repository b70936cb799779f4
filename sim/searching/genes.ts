import { type Axis, type Point, type Space, sizeOf, valueAt } from './space.ts';

/** A design as shares of the way along each axis, each 0 to 1: what methods that learn reckon with. */
export type Genes = readonly number[];

/** How an axis looks to a method that learns. */
export interface Scale {
  /** Values that it has; infinite for a plain range. */
  readonly size: number;
  /** Whether values with near shares are near each other; false for a list without any order. */
  readonly ordered: boolean;
  valueOf(share: number): number;
  shareOf(value: number): number;
}

/** The scale of an axis: lists stand in the order of their figures, and every value has an equal part of the way. */
export function scaleOf(axis: Axis): Scale {
  const size = sizeOf(axis);
  if (!Number.isFinite(size)) {
    const { from, to } = axis as Extract<Axis, { kind: 'range' }>;
    return {
      size,
      ordered: true,
      valueOf: (share) => (share >= 1 ? to : from + (to - from) * Math.max(0, share)),
      shareOf: (value) => clamp((value - from) / (to - from)),
    };
  }
  const along = axis.kind === 'list' ? figuresOf(axis) : undefined;
  const order = Array.from({ length: size }, (_, i) => i);
  if (along !== undefined) order.sort((a, b) => (along[a] as number) - (along[b] as number) || a - b);
  const values = order.map((i) => valueAt(axis, i));
  const shares = new Map(values.map((value, rank) => [value, (rank + 0.5) / size]));
  return {
    size,
    ordered: axis.kind !== 'list' || along !== undefined,
    valueOf: (share) => values[Math.min(size - 1, Math.floor(clamp(share) * size))] as number,
    shareOf: (value) => shares.get(value) ?? nearestShare(values, value),
  };
}

/** Figures by which the values of a list are near each other; undefined where they have no order. */
function figuresOf({ values, along }: Extract<Axis, { kind: 'list' }>): readonly number[] | undefined {
  if (along !== undefined) return along;
  return values.every((value) => typeof value === 'number') ? values : undefined;
}

function nearestShare(values: readonly number[], value: number): number {
  const away = values.map((v) => Math.abs(v - value));
  return (away.indexOf(Math.min(...away)) + 0.5) / values.length;
}

export const clamp = (share: number): number => Math.min(1, Math.max(0, share));

/** The design of genes. */
export const pointOf = (scales: readonly Scale[], genes: Genes): Point =>
  scales.map((scale, i) => scale.valueOf(genes[i] as number));

/** The genes of a design. */
export const genesOf = (scales: readonly Scale[], point: Point): number[] =>
  scales.map((scale, i) => scale.shareOf(point[i] as number));

/** The scales of all axes. */
export const scalesOf = (space: Space): readonly Scale[] => space.map(scaleOf);

/** A share that stands for another value of an axis of finite size: a neighbour where they have an order, else any. */
export function otherShare(scale: Scale, share: number, draw: () => number): number {
  const rank = Math.min(scale.size - 1, Math.floor(share * scale.size));
  const up = draw();
  const to = scale.ordered
    ? rank + (rank === 0 || (up < 0.5 && rank < scale.size - 1) ? 1 : -1)
    : (rank + 1 + Math.floor(up * (scale.size - 1))) % scale.size;
  return (to + 0.5) / scale.size;
}
