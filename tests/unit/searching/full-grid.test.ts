import { describe, expect, it } from 'vitest';
import { methodField } from '../../../sim/searching/registry.ts';
import { begin, checkSearch } from '../../../sim/searching/search.ts';
import type { Space } from '../../../sim/searching/space.ts';

const space: Space = [
  { kind: 'range', name: 'rate', from: 0, to: 1 },
  { kind: 'integer', name: 'teeth', from: 12, to: 16, step: 2 },
  { kind: 'list', name: 'spring', values: ['soft', 'hard'] },
];
const grid = methodField.parse({ kind: 'full-grid', levels: 3 });
const good = { goals: [1], violation: 0 };

describe('a full grid', () => {
  it('holds every value with every other, the last axis fastest', () => {
    const points = begin(space, grid, 1).ask(100);
    expect(points).toHaveLength(3 * 3 * 2);
    expect(points.slice(0, 3)).toEqual([
      [0, 12, 0],
      [0, 12, 1],
      [0, 14, 0],
    ]);
    expect(points.at(-1)).toEqual([1, 16, 1]);
  });

  it('is done when the last point is told, in any order', () => {
    const search = begin(space, grid, 1);
    const points = [...search.ask(5), ...search.ask(1000)];
    for (const point of points.reverse()) {
      expect(search.done).toBe(false);
      search.tell(point, good);
    }
    expect(search.done).toBe(true);
    expect(search.ask(1)).toEqual([]);
  });

  it('asks again, after a stop, for what was not told', () => {
    const search = begin(space, grid, 1);
    const asked = search.ask(5);
    for (const i of [0, 2, 4]) search.tell(asked[i] as number[], good);
    const state = JSON.parse(JSON.stringify(search.state()));
    const resumed = begin(space, grid, 1, { state });
    expect(resumed.ask(3)).toEqual([asked[1], asked[3], search.ask(1)[0]]);
  });

  it('refuses a point that was not asked for, and one that is told twice', () => {
    const search = begin(space, grid, 1);
    const [point] = search.ask(1) as [number[]];
    expect(() => search.tell([9, 9, 9], good)).toThrow(/not asked for/);
    search.tell(point, good);
    expect(() => search.tell(point, good)).toThrow(/told before/);
  });

  it('is refused when it comes to too many designs', () => {
    const wide: Space = Array.from({ length: 13 }, (_, i) => ({
      kind: 'range',
      name: `${i}`,
      from: 0,
      to: 1,
    }));
    expect(checkSearch(wide, grid)[0]?.message).toMatch(/1,594,323 designs/);
  });
});

describe('a space', () => {
  const wrong = (axis: Space[number]) => checkSearch([axis], grid).map(({ message }) => message);

  it.each([
    [{ kind: 'range', name: 'a', from: 2, to: 1 }, /upside down/],
    [{ kind: 'range', name: 'a', from: 0, to: 1, step: 0 }, /step 0/],
    [{ kind: 'range', name: 'a', from: 0, to: Number.POSITIVE_INFINITY }, /no finite range/],
    [{ kind: 'integer', name: 'a', from: 0.5, to: 3 }, /whole numbers/],
    [{ kind: 'list', name: 'a', values: [] }, /empty list/],
    [{ kind: 'list', name: 'a', values: [1, 2], along: [1] }, /2 values and 1 figures/],
  ] as const)('%j is refused', (axis, message) =>
    expect(wrong(axis)).toEqual([expect.stringMatching(message)]),
  );

  it('tells all that is wrong at once, each by its name', () => {
    const axes: Space = [
      { kind: 'range', name: 'a', from: 2, to: 1 },
      { kind: 'list', name: 'a', values: [] },
    ];
    expect(checkSearch(axes, grid).map(({ path }) => path)).toEqual(['a', 'a', 'a']);
    expect(checkSearch([], grid)).toHaveLength(1);
  });

  it('reaches its upper end by steps that fit up to rounding', () => {
    const axis: Space = [{ kind: 'range', name: 'a', from: 0, to: 0.3, step: 0.1 }];
    expect(begin(axis, grid, 1).ask(9)).toEqual([[0], [0.1], [0.2], [0.3]]);
  });
});
