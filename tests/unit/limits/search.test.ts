/* The search for a largest size, on made-up attempts. Seen red: bisection that keeps the wrong half; a scan that stops one size early. */
import { describe, expect, it } from 'vitest';
import { largestPassed, narrowed } from '../../../sim/limits/search.ts';

const passesBelow = (limit: number) => (size: number) => ({ crosses: size <= limit, size });
const search = { least: 1, most: 1000, growth: 1.2, tolerance: 1e-3 };

describe('the largest size that passes', () => {
  it.each([1.05, 7, 123.4, 999])('is found to a thousandth: %f', (limit) => {
    const found = largestPassed(passesBelow(limit), search);
    expect(found.passed).toBeLessThanOrEqual(limit);
    expect(found.passed).toBeGreaterThan(limit * (1 - 2e-3));
    expect(found.failed?.size).toBeGreaterThan(limit);
    expect(found.failed?.size).toBeLessThan(limit * (1 + 2e-3));
    expect(found.at?.size).toBe(found.passed);
  });

  it('is the one below the first failure, although larger ones pass again', () => {
    const hole = (size: number) => ({ crosses: size < 20 || size > 40 });
    const { passed, failed } = largestPassed(hole, search);
    expect(passed).toBeCloseTo(20, 1);
    expect(failed?.size).toBeCloseTo(20, 1);
  });

  it('lies below the least size when that fails, down to nothing', () => {
    expect(largestPassed(passesBelow(0.3), search).passed).toBeCloseTo(0.3, 2);
    const none = largestPassed(passesBelow(-1), search);
    expect(none.passed).toBe(0);
    expect(none.at).toBeUndefined();
    expect(none.failed?.size).toBeLessThan(2e-3);
  });

  it('is the most that was asked for when nothing fails', () => {
    expect(largestPassed(passesBelow(2000), search)).toEqual({
      passed: 1000,
      at: { crosses: true, size: 1000 },
      failed: undefined,
    });
    expect(largestPassed(passesBelow(2000), { ...search, least: 5000 }).passed).toBe(1000);
  });
});

describe('a closer look', () => {
  it.each([
    { coarse: 50, limit: 50.1 },
    { coarse: 50, limit: 47 },
    { coarse: 50, limit: 60 },
    { coarse: 50, limit: 0.5 },
  ])('moves the bracket from $coarse to $limit', ({ coarse, limit }) => {
    const rough = largestPassed(passesBelow(coarse), { ...search, tolerance: 1e-2 });
    const close = narrowed(passesBelow(limit), rough, search);
    expect(Math.abs(close.passed - limit)).toBeLessThan(2e-3 * limit + 1e-3);
    expect(close.failed?.at.crosses).toBe(false);
  });

  it('finds that nothing fails any more, or nothing passes', () => {
    const rough = largestPassed(passesBelow(50), search);
    expect(narrowed(passesBelow(5000), rough, search)).toMatchObject({ passed: 1000, failed: undefined });
    expect(narrowed(passesBelow(-1), rough, search)).toMatchObject({ passed: 0, at: undefined });
  });
});
