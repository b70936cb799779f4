import type { Dial } from '../../sim/tuning/dial.ts';
import type { Sample } from '../../sim/tuning/sample.ts';

/** Shares of axes, 0 to 1, between which samples must lie, by the axis: numbers first, then goals. */
export type Brush = Readonly<Record<number, readonly [number, number]>>;

/** One axis of all numbers and goals: a sample's figure on it, null without one, and the figures at its ends. */
export interface AxisOf {
  readonly name: string;
  readonly dial?: Dial;
  readonly goal?: number;
  readonly from: number;
  readonly to: number;
  read(sample: Sample): number | null;
}

/** Axes of a study: its numbers from their least to their greatest value, its goals over what was found. */
export function axesOf(
  dials: readonly Dial[],
  goals: readonly { readonly title: string }[],
  samples: readonly Sample[],
): readonly AxisOf[] {
  const numbers = dials.map((dial, d): AxisOf => {
    const { values } = dial;
    const [from, to] = values.kind === 'list' ? [0, values.values.length - 1] : [values.from, values.to];
    return { name: dial.name, dial, from, to, read: ({ design }) => design[d] ?? null };
  });
  const found = goals.map(({ title }, goal): AxisOf => {
    let [from, to] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
    for (const { goals: values } of samples) {
      const value = values[goal] ?? null;
      if (value !== null) [from, to] = [Math.min(from, value), Math.max(to, value)];
    }
    if (from > to) [from, to] = [0, 1];
    return { name: title, goal, from, to, read: (sample) => sample.goals[goal] ?? null };
  });
  return [...numbers, ...found];
}

/** Share of an axis at which a figure lies; half of one that has no length. */
export const shareOn = ({ from, to }: Pick<AxisOf, 'from' | 'to'>, figure: number): number =>
  to === from ? 0.5 : (figure - from) / (to - from);

/** Rounding of shares: what lies on the edge of a brush is in it. */
const slack = 1e-9;

/** Whether a sample lies within all that is brushed. */
export function within(brush: Brush, axes: readonly AxisOf[], sample: Sample): boolean {
  return Object.entries(brush).every(([key, [low, high]]) => {
    const axis = axes[Number(key)];
    if (axis === undefined) return true;
    const figure = axis.read(sample);
    if (figure === null) return false;
    const share = shareOn(axis, figure);
    return share >= low - slack && share <= high + slack;
  });
}

/** The brush with another stretch of one axis; a stretch that takes in all of it is none. */
export function brushed(brush: Brush, axis: number, a: number, b: number): Brush {
  const [low, high] = [Math.max(0, Math.min(a, b)), Math.min(1, Math.max(a, b))];
  const { [axis]: _, ...rest } = brush;
  return low <= 0 && high >= 1 ? rest : { ...rest, [axis]: [low, high] };
}
