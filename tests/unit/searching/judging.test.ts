import { describe, expect, it } from 'vitest';
import { crowdingOf, dominates, frontOf, ranksOf } from '../../../sim/searching/front.ts';
import {
  better,
  failedOutcome,
  isFeasible,
  type Outcome,
  soundOutcome,
} from '../../../sim/searching/outcome.ts';
import { percentileOutcome } from '../../../sim/searching/percentile.ts';
import { begin } from '../../../sim/searching/search.ts';

const held = (...goals: number[]): Outcome => ({ goals, violation: 0 });
const missed = (violation: number, ...goals: number[]): Outcome => ({ goals, violation });

describe('of two designs', () => {
  it('the better goal wins among those that hold', () => expect(better(held(1), held(2))).toBeLessThan(0));
  it('one that holds beats one that does not, whatever its goal', () =>
    expect(better(held(99), missed(0.1, 1))).toBeLessThan(0));
  it('the lesser violation wins among those that do not', () =>
    expect(better(missed(0.1, 99), missed(0.2, 1))).toBeLessThan(0));
  it('a failed one loses, and two failed are equals', () => {
    expect(better(missed(9, 9), failedOutcome)).toBeLessThan(0);
    expect(better(failedOutcome, failedOutcome)).toBe(0);
    expect(isFeasible(failedOutcome)).toBe(false);
  });
  it('figures that are not finite count as failed', () => {
    expect(soundOutcome({ goals: [Number.NaN], violation: 0 })).toEqual(failedOutcome);
    expect(soundOutcome({ goals: [1], violation: Number.POSITIVE_INFINITY })).toEqual(failedOutcome);
  });
});

describe('a front', () => {
  const outcomes = [
    held(1, 5),
    held(2, 3),
    held(3, 4),
    held(4, 1),
    missed(1, 0, 0),
    failedOutcome,
    held(2, 3),
  ];

  it('holds what nothing beats in both goals, equals together', () => {
    expect(frontOf(outcomes)).toEqual([0, 1, 6, 3]);
  });

  it('agrees for two goals with the plain definition', () => {
    let word = 7;
    const draw = () => {
      word = (word * 1103515245 + 12345) % 2 ** 31;
      return Math.floor((word / 2 ** 31) * 12);
    };
    const many = Array.from({ length: 300 }, () => held(draw(), draw()));
    const plain = many.flatMap((a, i) => (many.some((b) => dominates(b, a)) ? [] : [i]));
    expect([...frontOf(many)].sort((a, b) => a - b)).toEqual(plain);
  });

  it('is the first of ranks; those that miss criteria come after all that hold', () => {
    expect(ranksOf(outcomes)).toEqual([0, 0, 1, 0, 2, 3, 0]);
  });

  it('has most room at its ends, then where neighbours lie far apart', () => {
    const [a, b, c, d] = crowdingOf([held(0, 10), held(1, 9), held(8, 1), held(10, 0)]);
    expect([a, d]).toEqual([Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY]);
    // (8−0)/10 + (10−1)/10 and (10−1)/10 + (9−0)/10
    expect(b).toBeCloseTo(1.7, 12);
    expect(c).toBeCloseTo(1.8, 12);
  });
});

describe('a percentile of samples', () => {
  const twenty = Array.from({ length: 20 }, (_, i) => held(i + 1, 20 - i));

  it('is the 19th of 20 at 95 %, for each goal by itself', () => {
    expect(percentileOutcome(twenty, 0.95)).toEqual(held(19, 19));
    expect(percentileOutcome(twenty, 0.5)).toEqual(held(10, 10));
  });

  it('says that criteria hold when that share of the samples holds them', () => {
    const one = [missed(3, 1), ...twenty.slice(1)];
    const two = [missed(3, 1), missed(2, 2), ...twenty.slice(2)];
    expect(percentileOutcome(one, 0.95).violation).toBe(0);
    expect(percentileOutcome(two, 0.95).violation).toBe(2);
  });

  it('counts failed samples as worst', () => {
    expect(percentileOutcome([failedOutcome, ...twenty.slice(1)], 0.95)).toEqual(held(20, 19));
    expect(percentileOutcome([failedOutcome, failedOutcome, ...twenty.slice(2)], 0.95)).toEqual(
      failedOutcome,
    );
    expect(() => percentileOutcome([], 0.95)).toThrow(RangeError);
  });
});

describe('a search for a robust optimum', () => {
  it('says by how many samples each design is to be judged', () => {
    const search = begin(
      [{ kind: 'range', name: 'a', from: 0, to: 1 }],
      { kind: 'robust-optimum', designs: 50, samples: 16, percentile: 0.9 },
      1,
    );
    expect(search.inner).toEqual({ samples: 16, percentile: 0.9 });
  });

  it('moves away from a cliff that the plain optimum stands at', () => {
    // Best at 1 in the middle; a figure that is off by up to ±0.1 falls beyond it for some.
    const judge = (x: number) => (x > 1 ? { goals: [5], violation: 0 } : { goals: [1 - x], violation: 0 });
    const best = (kind: 'optimum' | 'robust-optimum') => {
      const search = begin(
        [{ kind: 'range', name: 'a', from: 0, to: 2 }],
        kind === 'optimum' ? { kind, designs: 400 } : { kind, designs: 400, samples: 21, percentile: 0.95 },
        1,
      );
      let found = { x: Number.NaN, outcome: failedOutcome };
      while (!search.done)
        for (const [x = 0] of search.ask(100)) {
          const samples = Array.from({ length: 21 }, (_, i) => judge(x + (i - 10) / 100));
          const outcome =
            search.inner === undefined ? judge(x) : percentileOutcome(samples, search.inner.percentile);
          if (better(outcome, found.outcome) < 0) found = { x, outcome };
          search.tell([x], outcome);
        }
      return found.x;
    };
    expect(best('optimum')).toBeCloseTo(1, 4);
    // One of 21 samples may lie beyond the cliff: +0.10 does, +0.09 does not.
    expect(best('robust-optimum')).toBeCloseTo(0.91, 4);
  });
});

describe('a space of few designs', () => {
  it('is searched whole where the budget allows', () => {
    const search = begin(
      [
        { kind: 'integer', name: 'a', from: 1, to: 6 },
        { kind: 'list', name: 'b', values: ['x', 'y'] },
      ],
      { kind: 'optimum', designs: 12 },
      1,
    );
    expect(search.size).toBe(12);
    expect(new Set(search.ask(100).map(String)).size).toBe(12);
  });
});
