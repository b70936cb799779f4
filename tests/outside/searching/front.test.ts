/**
 * Two goals at once against fronts in closed form: ZDT1 (f₂ = 1 − √f₁) and ZDT2 (f₂ = 1 − f₁²). Source: E. Zitzler,
 * K. Deb, L. Thiele, "Comparison of multiobjective evolutionary algorithms", Evol. Comput. 8 (2000) 173–195. Constrained:
 * the two-bar form BNH of T. Binh and U. Korn (1997), whose front is known: x = y up to 3, then x to 5 with y = 3.
 *
 * With 10 numbers (30 in the paper) and 8,000 designs. Distances to the front at most 0.005 in the mean: half a hundredth of
 * the length of either goal, below what can be read off a plot; the front is covered when no gap along f₁ is over 0.1.
 */
import { describe, expect, it } from 'vitest';
import { frontOf } from '../../../sim/searching/front.ts';
import type { Outcome } from '../../../sim/searching/outcome.ts';
import { begin } from '../../../sim/searching/search.ts';
import type { Axis, Point, Space } from '../../../sim/searching/space.ts';

const unit = (n: number): Axis[] =>
  Array.from({ length: n }, (_, i) => ({ kind: 'range', name: `x${i}`, from: 0, to: 1 }));

/** The front that was found, by the first goal. */
function front(space: Space, designs: number, seed: number, judge: (x: Point) => Outcome): number[][] {
  const running = begin(space, { kind: 'front', designs }, seed);
  const outcomes: Outcome[] = [];
  while (!running.done)
    for (const point of running.ask(100)) {
      outcomes.push(judge(point));
      running.tell(point, outcomes.at(-1) as Outcome);
    }
  expect(outcomes.length).toBe(designs);
  return frontOf(outcomes).map((i) => [...(outcomes[i]?.goals ?? [])]);
}

const g = (x: Point): number => 1 + (9 * x.slice(1).reduce((sum, v) => sum + v, 0)) / (x.length - 1);

describe.each([
  { name: 'ZDT1', second: (x: number, h: number) => h * (1 - Math.sqrt(x / h)) },
  { name: 'ZDT2', second: (x: number, h: number) => h * (1 - (x / h) ** 2) },
])('$name', ({ second }) => {
  it.each([1, 2, 3, 4, 5])('is found and covered, seed %i', (seed) => {
    const found = front(unit(10), 8000, seed, (x) => ({
      goals: [x[0] as number, second(x[0] as number, g(x))],
      violation: 0,
    }));
    const away = found.map(([a = 0, b = 0]) => b - second(a, 1));
    expect(Math.min(...away)).toBeGreaterThan(-1e-12);
    expect(away.reduce((sum, d) => sum + d, 0) / away.length).toBeLessThan(0.005);
    const along = [0, ...found.map(([a = 0]) => a), 1].sort((a, b) => a - b);
    expect(Math.max(...along.slice(1).map((a, i) => a - (along[i] as number)))).toBeLessThan(0.1);
  });
});

describe('BNH, with two constraints', () => {
  it.each([1, 2, 3, 4, 5])('is found and covered, seed %i', (seed) => {
    const space: Space = [
      { kind: 'range', name: 'x', from: 0, to: 5 },
      { kind: 'range', name: 'y', from: 0, to: 3 },
    ];
    const found = front(space, 3000, seed, ([x = 0, y = 0]) => ({
      goals: [4 * x * x + 4 * y * y, (x - 5) ** 2 + (y - 5) ** 2],
      violation: Math.max(0, (x - 5) ** 2 + y * y - 25) + Math.max(0, 7.7 - (x - 8) ** 2 - (y + 3) ** 2),
    }));
    // On the front f₂ follows from f₁: x = y = √(f₁/8) up to 72, then y = 3 and x = √(f₁/4 − 9).
    const onFront = (f1: number): number => {
      const x = f1 <= 72 ? Math.sqrt(f1 / 8) : Math.sqrt(f1 / 4 - 9);
      return (x - 5) ** 2 + (Math.min(x, 3) - 5) ** 2;
    };
    const away = found.map(([a = 0, b = 0]) => b - onFront(a));
    expect(Math.min(...away)).toBeGreaterThan(-1e-9);
    // f₂ runs from 4 to 50: 0.25 is half a percent of that.
    expect(away.reduce((sum, d) => sum + d, 0) / away.length).toBeLessThan(0.25);
    expect(found[0]?.[0]).toBeLessThan(3);
    expect(found.at(-1)?.[0]).toBeGreaterThan(133);
  });
});
