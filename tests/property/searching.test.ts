import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type MethodOptions, methodField } from '../../sim/searching/registry.ts';
import { begin, type Search } from '../../sim/searching/search.ts';
import type { Point, Space } from '../../sim/searching/space.ts';

const spaces: readonly Space[] = [
  [
    { kind: 'range', name: 'a', from: -2, to: 3 },
    { kind: 'range', name: 'b', from: 0.01, to: 0.02 },
  ],
  [
    { kind: 'range', name: 'a', from: 0, to: 1 },
    { kind: 'integer', name: 'b', from: 8, to: 40 },
    { kind: 'list', name: 'c', values: ['oak', 'ash', 'elm', 'yew'] },
    { kind: 'list', name: 'd', values: [3, 1, 2] },
  ],
  [
    { kind: 'integer', name: 'a', from: 0, to: 30 },
    { kind: 'list', name: 'b', values: ['x', 'y', 'z'], along: [2, 9, 4] },
    { kind: 'range', name: 'c', from: 0, to: 1, step: 0.125 },
  ],
];

const methods: readonly MethodOptions[] = [
  { kind: 'full-grid', levels: 4 },
  { kind: 'one-at-a-time', levels: 4 },
  { kind: 'low-discrepancy', designs: 100 },
  { kind: 'optimum', designs: 400 },
  { kind: 'front', designs: 200 },
  { kind: 'robust-optimum', designs: 200, samples: 8, percentile: 0.9 },
].map((options) => methodField.parse(options));

/** Some outcome that depends on nothing but the point: rough, with criteria, and with designs that fail. */
function judged(point: Point) {
  const x = point.reduce((sum, v, i) => sum + v * (i + 1.3), 0);
  if (Math.sin(17 * x) > 0.9) return { goals: null, violation: 0 };
  return { goals: [x * x + Math.cos(9 * x), Math.abs(x - 3)], violation: Math.max(0, Math.sin(3 * x)) };
}

/** Goes on with a search, asking for `n` at a time and telling in an order of its own; all points as they were asked. */
function finish(search: Search, n: number, backwards: boolean, most = Number.POSITIVE_INFINITY): Point[] {
  const asked: Point[] = [];
  while (!search.done && asked.length < most) {
    const points = search.ask(Math.min(n, most - asked.length));
    if (points.length === 0) throw new Error('it neither asks nor ends');
    asked.push(...points);
    for (const point of backwards ? [...points].reverse() : points) search.tell(point, judged(point));
  }
  return asked;
}

const cases = fc.record({
  space: fc.constantFrom(...spaces),
  options: fc.constantFrom(...methods),
  seed: fc.integer(),
});

describe('every search', () => {
  it('asks for the same points however many it is asked for at a time, and in whatever order it is told', () => {
    fc.assert(
      fc.property(
        cases,
        fc.integer({ min: 1, max: 50 }),
        fc.boolean(),
        ({ space, options, seed }, n, back) => {
          const whole = finish(begin(space, options, seed), 1000, false);
          expect(finish(begin(space, options, seed), n, back)).toEqual(whole);
        },
      ),
      { numRuns: 40 },
    );
  });

  it('goes on alike, to the last bit, when it is stopped anywhere and resumed from JSON', () => {
    fc.assert(
      fc.property(
        cases,
        fc.nat({ max: 400 }),
        fc.nat({ max: 20 }),
        ({ space, options, seed }, stop, untold) => {
          const whole = finish(begin(space, options, seed), 1000, false);
          const first = begin(space, options, seed);
          const before = finish(first, 7, false, stop);
          // Some points were asked for and lost with the process.
          first.ask(untold);
          const state = JSON.parse(JSON.stringify(first.state()));
          const resumed = begin(space, options, seed, { state });
          expect(resumed.state()).toEqual(state);
          expect([...before, ...finish(resumed, 1000, false)]).toEqual(whole);
        },
      ),
      { numRuns: 60 },
    );
  });

  it('stays within its axes and its size', () => {
    fc.assert(
      fc.property(cases, ({ space, options, seed }) => {
        const search = begin(space, options, seed);
        const points = finish(search, 1000, false);
        expect(points.length).toBeLessThanOrEqual(search.size);
        for (const point of points)
          space.forEach((axis, i) => {
            const value = point[i] as number;
            if (axis.kind === 'list') expect(axis.values[value]).toBeDefined();
            else expect(value >= axis.from && value <= axis.to).toBe(true);
            if (axis.kind === 'integer') expect(Number.isInteger(value)).toBe(true);
          });
      }),
      { numRuns: 40 },
    );
  });

  it('tries no design of a space twice while there are others, where all of its axes have few values', () => {
    const space = spaces[2] as Space;
    const points = finish(begin(space, { kind: 'optimum', designs: 400 }, 3), 1000, false);
    expect(new Set(points.map(String)).size).toBeGreaterThan(0.95 * points.length);
  });
});
