/**
 * Published test functions of optimisation with their least known values. Every goal is wanted small; `violations` are
 * the left sides of constraints that must be at most 0, scaled as published.
 */
import type { Outcome } from '../../../sim/searching/outcome.ts';
import type { Axis, Point, Space } from '../../../sim/searching/space.ts';

export interface TestFunction {
  readonly name: string;
  /** Where function, constraints and least value are published. */
  readonly source: string;
  readonly space: Space;
  goal(x: Point): number;
  violations?(x: Point): readonly number[];
  /** Least value, or best known. */
  readonly least: number;
}

const axes = (count: number, from: number, to: number): Axis[] =>
  Array.from({ length: count }, (_, i) => ({ kind: 'range', name: `x${i + 1}`, from, to }));
const axis = (name: string, from: number, to: number): Axis => ({ kind: 'range', name, from, to });

/** What a design comes to: violations added up. */
export const outcomeOf = (f: TestFunction, x: Point): Outcome => ({
  goals: [f.goal(x)],
  violation: (f.violations?.(x) ?? []).reduce((sum, g) => sum + Math.max(0, g), 0),
});

export const rosenbrock = (n: number): TestFunction => ({
  name: `Rosenbrock, ${n} numbers`,
  source: 'H. H. Rosenbrock, Comput. J. 3 (1960) 175–184; least value 0 at (1, …, 1)',
  space: axes(n, -5, 10),
  goal: (x) =>
    x
      .slice(1)
      .reduce((sum, b, i) => sum + 100 * (b - (x[i] as number) ** 2) ** 2 + (1 - (x[i] as number)) ** 2, 0),
  least: 0,
});

export const rastrigin = (n: number): TestFunction => ({
  name: `Rastrigin, ${n} numbers`,
  source:
    'L. A. Rastrigin (1974), H. Mühlenbein et al. (1991); least value 0 at the origin, 10ⁿ other valleys',
  space: axes(n, -5.12, 5.12),
  goal: (x) => x.reduce((sum, v) => sum + v * v - 10 * Math.cos(2 * Math.PI * v) + 10, 0),
  least: 0,
});

export const branin: TestFunction = {
  name: 'Branin',
  source: 'F. H. Branin, IBM J. Res. Dev. 16 (1972) 504–522; least value 0.397887 at three places',
  space: [axis('x1', -5, 10), axis('x2', 0, 15)],
  goal: ([x = 0, y = 0]) =>
    (y - (5.1 / (4 * Math.PI ** 2)) * x * x + (5 / Math.PI) * x - 6) ** 2 +
    10 * (1 - 1 / (8 * Math.PI)) * Math.cos(x) +
    10,
  least: 0.39788735772973816,
};

export const himmelblau: TestFunction = {
  name: 'Himmelblau',
  source:
    'D. Himmelblau, Applied Nonlinear Programming (1972); least value 0 at four places, one of them (3, 2)',
  space: axes(2, -5, 5),
  goal: ([x = 0, y = 0]) => (x * x + y - 11) ** 2 + (x + y * y - 7) ** 2,
  least: 0,
};

export const g06: TestFunction = {
  name: 'G06',
  source:
    'J. Liang et al., Problem definitions for the CEC 2006 session on constrained optimization; −6961.81387558',
  space: [axis('x1', 13, 100), axis('x2', 0, 100)],
  goal: ([x = 0, y = 0]) => (x - 10) ** 3 + (y - 20) ** 3,
  violations: ([x = 0, y = 0]) => [-((x - 5) ** 2) - (y - 5) ** 2 + 100, (x - 6) ** 2 + (y - 5) ** 2 - 82.81],
  least: -6961.81387558015,
};

export const g08: TestFunction = {
  name: 'G08',
  source: 'J. Liang et al., Problem definitions for the CEC 2006 session; −0.0958250414180359',
  space: axes(2, 0, 10),
  goal: ([x = 0, y = 0]) =>
    x === 0 ? 0 : -(Math.sin(2 * Math.PI * x) ** 3 * Math.sin(2 * Math.PI * y)) / (x ** 3 * (x + y)),
  violations: ([x = 0, y = 0]) => [x * x - y + 1, 1 - x + (y - 4) ** 2],
  least: -0.0958250414180359,
};

export const tensionSpring: TestFunction = {
  name: 'tension spring',
  source:
    'A. Belegundu (1982), J. Arora, Introduction to Optimum Design; least known 0.0126652 (C. Coello, Comput. Ind. 41 (2000) 113–127, and later work)',
  space: [axis('wire', 0.05, 2), axis('coil', 0.25, 1.3), axis('coils', 2, 15)],
  goal: ([d = 0, D = 0, n = 0]) => (n + 2) * D * d * d,
  violations: ([d = 0, D = 0, n = 0]) => [
    1 - (D ** 3 * n) / (71785 * d ** 4),
    (4 * D * D - d * D) / (12566 * (D * d ** 3 - d ** 4)) + 1 / (5108 * d * d) - 1,
    1 - (140.45 * d) / (D * D * n),
    (d + D) / 1.5 - 1,
  ],
  least: 0.0126652328,
};

export const pressureVessel: TestFunction = {
  name: 'pressure vessel, mixed',
  source:
    'E. Sandgren, J. Mech. Design 112 (1990) 223–229; thicknesses in steps of 0.0625; least known 6059.714335 (many authors)',
  space: [
    { kind: 'integer', name: 'shell', from: 1, to: 99 },
    { kind: 'integer', name: 'head', from: 1, to: 99 },
    axis('radius', 10, 200),
    axis('length', 10, 200),
  ],
  goal: ([shell = 0, head = 0, r = 0, l = 0]) => {
    const [s, h] = [shell * 0.0625, head * 0.0625];
    return 0.6224 * s * r * l + 1.7781 * h * r * r + 3.1661 * s * s * l + 19.84 * s * s * r;
  },
  violations: ([shell = 0, head = 0, r = 0, l = 0]) => [
    0.0193 * r - shell * 0.0625,
    0.00954 * r - head * 0.0625,
    1 - (Math.PI * r * r * l + (4 / 3) * Math.PI * r ** 3) / 1_296_000,
    (l - 240) / 240,
  ],
  least: 6059.714335,
};

export const gearTrain: TestFunction = {
  name: 'gear train, whole numbers',
  source:
    'E. Sandgren (1990), B. Kannan and S. Kramer, J. Mech. Design 116 (1994) 405–411; least value 2.700857e−12, teeth 16·19/(43·49)',
  space: ['a', 'b', 'c', 'd'].map((name): Axis => ({ kind: 'integer', name, from: 12, to: 60 })),
  goal: ([a = 0, b = 0, c = 0, d = 0]) => (1 / 6.931 - (a * b) / (c * d)) ** 2,
  least: 2.700857e-12,
};
