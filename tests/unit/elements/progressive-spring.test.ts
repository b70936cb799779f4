import { describe, expect, it } from 'vitest';
import { progressiveSpring } from '../../../sim/elements/progressive-spring.ts';
import { lawFrom, none, refusals } from './read.ts';

const row = (travel: number, force: number) => ({ travel, force });

describe('a spring by a table', () => {
  const law = lawFrom(progressiveSpring, {
    table: [row(0, 0), row(0.01, 10), row(0.02, 30)],
    drawnAt: '10 mm',
  });

  it('goes through its rows', () => {
    expect([-0.01, 0, 0.01].map((x) => -law.spring(x, none))).toEqual(
      [0, 10, 30].map((f) => expect.closeTo(f, 12)),
    );
  });

  it("has the harmonic mean of its neighbours' slopes at a middle row: 2/(1/1000 + 1/2000) = 4000/3 N/m", () => {
    expect(law.stiffness(0, none)).toBeCloseTo(4000 / 3, 9);
  });

  it('stores what the cubics enclose: 0.2444 J up to the last row', () => {
    // A cubic piece encloses h·(y₀ + y₁)/2 + h²·(s₀ − s₁)/12: 0.05 + (1000 − 4000/3)/12·1e-4, 0.2 + (4000/3 − 2000)/12·1e-4
    expect(law.energy(0.01, none)).toBeCloseTo(0.05 - 1 / 360 + 0.2 - 2 / 360, 12);
  });

  it('goes on with its last slope: 30 + 2000·0.005 = 40 N', () => {
    expect(law.spring(0.015, none)).toBeCloseTo(-40, 12);
    expect(law.energy(0.015, none) - law.energy(0.01, none)).toBeCloseTo(0.005 * 35, 12);
  });

  it('is slack before its first row', () => {
    expect(law.spring(-0.011, none)).toBeCloseTo(0, 15);
  });
});

it('a table on a straight line is a straight spring', () => {
  const law = lawFrom(progressiveSpring, { table: [row(0, 0), row(0.004, 6), row(0.03, 45)] });
  for (const x of [0.001, 0.01, 0.02, 0.05]) expect(-law.spring(x, none)).toBeCloseTo(1500 * x, 10);
});

it('a flat stretch of a table stays flat: the curve never swings past its rows', () => {
  const law = lawFrom(progressiveSpring, { table: [row(0, 0), row(0.01, 20), row(0.02, 20), row(0.03, 60)] });
  for (const x of [0.012, 0.015, 0.019]) expect(-law.spring(x, none)).toBeCloseTo(20, 12);
});

describe('the table of a progressive spring', () => {
  const table = (...rows: [number, number][]) => ({ table: rows.map(([t, f]) => row(t, f)) });

  it('must begin with the free spring', () => {
    expect(refusals(progressiveSpring, table([0, 2], [0.01, 4]))).toEqual([
      'table.0: the first row must be the free spring, with force 0',
    ]);
  });

  it('must rise in travel and must not fall in force, and says in which row it does not', () => {
    const says = 'travel must rise from row to row by 0.001 mm at least, and the force must not fall';
    expect(refusals(progressiveSpring, table([0, 0], [0.01, 4], [0.01, 5]))).toEqual([`table.2: ${says}`]);
    expect(refusals(progressiveSpring, table([0, 0], [0.01, 4], [0.02, 3.9]))).toEqual([`table.2: ${says}`]);
  });

  it('must have two rows', () => {
    expect(refusals(progressiveSpring, table([0, 0]))).toHaveLength(1);
  });
});
