import type { Kept, Learner } from './method.ts';
import { type Point, type Space, valuesOf } from './space.ts';

/** Every design of a space of finite size, all in one batch: for searches that may evaluate that many anyway. */
export function everyDesign(space: Space): Learner<Kept> {
  const points = space.reduce<Point[]>(
    (before, axis) => before.flatMap((point) => valuesOf(axis, 1).map((value) => [...point, value])),
    [[]],
  );
  return {
    size: points.length,
    start: () => false,
    batch: (tried) => (tried === true ? [] : points),
    learn: () => true,
  };
}
