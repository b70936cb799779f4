/**
 * Sobol' sequence against published points, and its table of direction numbers against what defines such a table.
 * Source of points: example in S. Joe and F. Y. Kuo, "Notes on generating Sobol' sequences" (2008), printed beside their
 * table: the first ten points of three dimensions in the order of the Gray code; the same stand in the documentation of
 * several libraries.
 */
import { describe, expect, it } from 'vitest';
import { directionTable } from '../../../sim/searching/direction-numbers.ts';
import { mostDimensions, sobol, sobolWords } from '../../../sim/searching/sobol.ts';

const rows = directionTable.map((row) => row.split(' ').map(Number));

describe("the Sobol' sequence", () => {
  it('begins with the published points, exactly', () => {
    const point = sobolWords(3);
    const published = [
      [0, 0, 0],
      [0.5, 0.5, 0.5],
      [0.75, 0.25, 0.25],
      [0.25, 0.75, 0.75],
      [0.375, 0.375, 0.625],
      [0.875, 0.875, 0.125],
      [0.625, 0.125, 0.875],
      [0.125, 0.625, 0.375],
      [0.1875, 0.3125, 0.9375],
      [0.6875, 0.8125, 0.4375],
    ];
    expect(published.map((_, i) => Array.from(point(i), (word) => word / 2 ** 32))).toEqual(published);
  });

  it('has in every dimension one of 256 points in each 256th, from any multiple of 256 on, shifted or not', () => {
    const plain = sobolWords(mostDimensions);
    const shifted = sobol(mostDimensions, 7);
    for (const first of [0, 256, 4096]) {
      const points = Array.from({ length: 256 }, (_, i) => plain(first + i));
      const moved = Array.from({ length: 256 }, (_, i) => shifted(first + i));
      for (let d = 0; d < mostDimensions; d++) {
        expect(new Set(points.map((p) => (p[d] as number) >>> 24)).size).toBe(256);
        expect(new Set(moved.map((p) => Math.floor((p[d] as number) * 256))).size).toBe(256);
      }
    }
  });

  it('has more of a square filled evenly by its first two dimensions than chance does: a (0, 8, 2) net', () => {
    // The first two dimensions of Sobol' points are a (0, m, 2)-net: every box of area 1/256 holds one of 256 points.
    const point = sobolWords(2);
    for (let k = 0; k <= 8; k++) {
      const boxes = Array.from({ length: 256 }, (_, i) => {
        const [x = 0, y = 0] = Array.from(point(i), (word) => word / 2 ** 32);
        return Math.floor(x * 2 ** k) * 2 ** (8 - k) + Math.floor(y * 2 ** (8 - k));
      });
      expect(new Set(boxes).size).toBe(256);
    }
  });

  it('never gives 0 or 1 when shifted', () => {
    const point = sobol(5, 3);
    for (let i = 0; i < 1000; i++) for (const x of point(i)) expect(x > 0 && x < 1).toBe(true);
  });

  it('integrates a smooth product to a known value far better than chance would', () => {
    // ∫ Π (1 + (xᵢ − ½)/4) = 1; chance errs by about √(5/12/16/1024) = 0.005 with 1024 points in 5 dimensions.
    const point = sobol(5, 11);
    let sum = 0;
    for (let i = 0; i < 1024; i++) sum += point(i).reduce((all, x) => all * (1 + (x - 0.5) / 4), 1);
    expect(Math.abs(sum / 1024 - 1)).toBeLessThan(1e-4);
  });
});

describe('the table of direction numbers', () => {
  it('holds odd numbers mₖ below 2ᵏ, as the definition demands', () => {
    for (const [, ...m] of rows)
      m.forEach((value, k) => {
        expect(value % 2).toBe(1);
        expect(value).toBeLessThan(2 ** (k + 1));
      });
  });

  it('holds every primitive polynomial over GF(2) of degree 1 to 10, each once, in rising order', () => {
    // Their numbers are φ(2ˢ − 1)/s: 1, 1, 2, 2, 6, 6, 18, 16, 48, 60 (texts on finite fields).
    for (let degree = 1; degree <= 10; degree++) {
      const primitive = Array.from({ length: 2 ** (degree - 1) }, (_, a) => a).filter((a) =>
        isPrimitive(2 ** degree + 2 * a + 1, degree),
      );
      expect(rows.filter((row) => row.length - 1 === degree).map(([a]) => a)).toEqual(
        degree === 1 ? [0] : primitive,
      );
    }
    expect(rows).toHaveLength(160);
  });
});

/** Whether x has the order 2ˢ − 1 modulo the polynomial: its powers run through everything but zero. */
function isPrimitive(polynomial: number, degree: number): boolean {
  let power = 1;
  for (let k = 1; k < 2 ** degree; k++) {
    power <<= 1;
    if (power & (2 ** degree)) power ^= polynomial;
    if (power === 1) return k === 2 ** degree - 1;
  }
  return false;
}
