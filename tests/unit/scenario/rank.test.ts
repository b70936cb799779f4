import fc from 'fast-check';
import { Matrix, SVD } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import { rankOf } from '../../../sim/scenario/meaning/rank.ts';

const row = (length: number) =>
  fc.array(
    fc.double({ min: -10, max: 10, noNaN: true }).map((x) => Math.round(x * 100) / 100),
    {
      minLength: length,
      maxLength: length,
    },
  );

describe('the rank of a small matrix', () => {
  it.each([
    [[], 0],
    [[[]], 0],
    [[[0, 0]], 0],
    [[[0, 3]], 1],
    [
      [
        [1, 2],
        [2, 4],
      ],
      1,
    ],
    [
      [
        [1, 2],
        [2, 4.001],
      ],
      2,
    ],
    [
      [
        [1, 2, 3],
        [4, 5, 6],
        [7, 8, 9],
      ],
      2,
    ],
  ] as [number[][], number][])('%j is %i', (matrix, rank) => {
    expect(rankOf(matrix)).toBe(rank);
  });

  it('is that of a library, also where rows are sums of others', () => {
    const matrices = fc.tuple(row(4), row(4), row(4), fc.integer({ min: -3, max: 3 })).map(([a, b, c, k]) => {
      return [a, b, c, a.map((x, i) => x * k + (b[i] ?? 0))];
    });
    fc.assert(
      fc.property(matrices, (matrix) => {
        const { diagonal } = new SVD(new Matrix(matrix), { autoTranspose: true });
        const least = (diagonal[0] ?? 0) * 1e-9;
        // Figures have two decimals, so singular values are either rounding or well above it.
        fc.pre(diagonal.every((s) => s <= least / 1e3 || s > least * 1e3));
        expect(rankOf(matrix)).toBe(diagonal.filter((s) => s > least).length);
      }),
    );
  });
});
