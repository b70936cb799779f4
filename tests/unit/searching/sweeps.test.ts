import { describe, expect, it } from 'vitest';
import { methodField } from '../../../sim/searching/registry.ts';
import { begin, checkSearch } from '../../../sim/searching/search.ts';
import type { Space } from '../../../sim/searching/space.ts';

const space: Space = [
  { kind: 'range', name: 'rate', from: 0, to: 1 },
  { kind: 'integer', name: 'teeth', from: 12, to: 16, step: 2 },
  { kind: 'list', name: 'spring', values: ['soft', 'middle', 'hard'] },
];

describe('one at a time', () => {
  const options = methodField.parse({ kind: 'one-at-a-time', levels: 3 });

  it('begins with today and moves one number from there, never to where it is', () => {
    const points = begin(space, options, 1, { today: [0.2, 14, 0] }).ask(100);
    expect(points).toEqual([
      [0.2, 14, 0],
      [0, 14, 0],
      [0.5, 14, 0],
      [1, 14, 0],
      [0.2, 12, 0],
      [0.2, 16, 0],
      [0.2, 14, 1],
      [0.2, 14, 2],
    ]);
  });

  it('crosses in the middle where today is not told', () => {
    expect(begin(space, options, 1).ask(1)).toEqual([[0.5, 14, 1]]);
  });
});

describe('even sampling', () => {
  const options = methodField.parse({ kind: 'low-discrepancy', designs: 64 });

  it('gives every value of a list and of whole numbers its equal part, to one', () => {
    const points = begin(space, options, 5).ask(64);
    for (const value of [0, 1, 2])
      expect(Math.abs(points.filter((p) => p[2] === value).length - 64 / 3)).toBeLessThanOrEqual(1);
    for (const teeth of [12, 14, 16])
      expect(Math.abs(points.filter((p) => p[1] === teeth).length - 64 / 3)).toBeLessThanOrEqual(1);
  });

  it('puts exactly one of 64 in each 64th of a range', () => {
    const cells = begin(space, options, 5)
      .ask(64)
      .map(([rate]) => Math.floor((rate as number) * 64));
    expect(new Set(cells).size).toBe(64);
  });

  it('is another set of points for another seed, and the same for the same', () => {
    const of = (seed: number) => begin(space, options, seed).ask(4);
    expect(of(1)).toEqual(of(1));
    expect(of(1)).not.toEqual(of(2));
  });

  it('is refused for more numbers than the table has', () => {
    const wide: Space = Array.from({ length: 162 }, (_, i) => ({
      kind: 'range',
      name: `n${i}`,
      from: 0,
      to: 1,
    }));
    expect(checkSearch(wide, options)[0]?.message).toMatch(/162 numbers/);
    expect(checkSearch(wide.slice(1), options)).toEqual([]);
  });
});
