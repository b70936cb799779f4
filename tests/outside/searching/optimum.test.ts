/**
 * The search for the best against published test functions (functions.ts: names, sources, least values). Budgets are
 * stated, and every one of ten fixed seeds must pass.
 *
 * Tolerances: smooth functions without criteria are to be met to 1e-6, far below any digit that is shown. Where criteria
 * meet at an edge, methods in print differ by up to a percent at such budgets: a spring to 1 %; the vessel to 0.1 %,
 * which tells its best thicknesses from the next best ones (6090.53, 0.5 % more). The gear train has 5.7 million designs
 * of which 6,000 are tried: within 1e-8, as its published near-optima are (2.3e-11, 9.9e-10, 1.4e-9, …).
 */
import { describe, expect, it } from 'vitest';
import { better, type Outcome } from '../../../sim/searching/outcome.ts';
import { begin } from '../../../sim/searching/search.ts';
import type { Point } from '../../../sim/searching/space.ts';
import {
  branin,
  g06,
  g08,
  gearTrain,
  himmelblau,
  outcomeOf,
  pressureVessel,
  rastrigin,
  rosenbrock,
  type TestFunction,
  tensionSpring,
} from './functions.ts';

interface Best {
  readonly point: Point;
  readonly outcome: Outcome;
  readonly evaluated: number;
}

function search(f: TestFunction, designs: number, seed: number): Best {
  const running = begin(f.space, { kind: 'optimum', designs }, seed);
  let best: Best | undefined;
  let evaluated = 0;
  while (!running.done)
    for (const point of running.ask(1000)) {
      const outcome = outcomeOf(f, point);
      evaluated += 1;
      if (best === undefined || better(outcome, best.outcome) < 0) best = { point, outcome, evaluated };
      running.tell(point, outcome);
    }
  return { ...(best as Best), evaluated };
}

const seeds = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10];

const cases: readonly { f: TestFunction; designs: number; within: number }[] = [
  { f: rosenbrock(2), designs: 2000, within: 1e-6 },
  { f: rosenbrock(5), designs: 10_000, within: 1e-6 },
  { f: rastrigin(5), designs: 8000, within: 1e-6 },
  { f: branin, designs: 1000, within: 1e-6 },
  { f: himmelblau, designs: 1000, within: 1e-6 },
  { f: g06, designs: 3000, within: 1e-4 * 6961.8 },
  { f: g08, designs: 1000, within: 1e-6 },
  { f: tensionSpring, designs: 6000, within: 0.01 * tensionSpring.least },
  { f: pressureVessel, designs: 20_000, within: 1e-3 * pressureVessel.least },
  { f: gearTrain, designs: 6000, within: 1e-8 },
];

describe('the best design of published functions', () => {
  it.each(cases)('$f.name within $within at $designs designs, all seeds', ({ f, designs, within }) => {
    for (const seed of seeds) {
      const { outcome, evaluated } = search(f, designs, seed);
      const goal = outcome.goals?.[0] as number;
      expect(outcome.violation, `seed ${seed}`).toBe(0);
      expect(goal - f.least, `seed ${seed}`).toBeLessThanOrEqual(within);
      // Nothing is better than the least value that is known, but for its last printed digit.
      expect(goal, `seed ${seed}`).toBeGreaterThanOrEqual(f.least - 1e-7 * Math.max(1e-3, Math.abs(f.least)));
      expect(evaluated).toBeLessThanOrEqual(designs);
    }
  });

  it.each([
    { f: branin, random: 1000, within: 1e-6 },
    { f: rosenbrock(5), random: 10_000, within: 1e-6 },
  ])('$f.name is not met so closely by even sampling alone', ({ f, random, within }) => {
    const sampling = begin(f.space, { kind: 'low-discrepancy', designs: random }, 1);
    const least = Math.min(...sampling.ask(random).map((point) => f.goal(point)));
    expect(least - f.least).toBeGreaterThan(1000 * within);
  });
});
