import { describe, expect, it } from 'vitest';
import type { Report, Verdict } from '../../../shared/report.ts';
import { compareReports } from '../../../sim/report/changes.ts';
import { differenceWords, figureWords } from '../../../src/panels/figures.ts';
import { wayOf } from '../../../src/panels/judge.ts';

const verdict = (pass: boolean, value: number, limit: number): Verdict => ({
  index: 0,
  kind: 'some',
  asks: 'Something holds',
  pass,
  value,
  limit,
  unit: '1',
  shown: String(value),
  says: '',
});

const report = (change: Partial<Report>): Report => ({
  mode: 'drive',
  title: '',
  vehicle: '',
  mass: 6,
  cg: { x: 0, z: 0.1 },
  pitchInertia: 1,
  wheels: [],
  measures: [],
  events: [],
  verdicts: [],
  problems: [],
  pass: true,
  ...change,
});

/** Which way the only change between two verdicts goes. */
function wayBetween(before: Verdict, after: Verdict) {
  const [change] = compareReports(report({ verdicts: [before] }), report({ verdicts: [after] }));
  return change === undefined ? undefined : wayOf(change);
}

describe('a change', () => {
  it.each([
    [
      'a least load that grew, still too small',
      verdict(false, 0.1, 0.2),
      verdict(false, 0.15, 0.2),
      'better',
    ],
    ['a least load that fell, still enough', verdict(true, 0.4, 0.2), verdict(true, 0.3, 0.2), 'worse'],
    [
      'a time off the ground that fell, still too long',
      verdict(false, 0.12, 0.05),
      verdict(false, 0.08, 0.05),
      'better',
    ],
    [
      'a time off the ground that grew, still short',
      verdict(true, 0.01, 0.05),
      verdict(true, 0.02, 0.05),
      'worse',
    ],
    ['a verdict that holds now', verdict(false, 0.1, 0.2), verdict(true, 0.3, 0.2), 'better'],
    ['a verdict that no longer holds', verdict(true, 0.3, 0.2), verdict(false, 0.1, 0.2), 'worse'],
    [
      'a value that stood on its limit and fell below',
      verdict(true, 0.2, 0.2),
      verdict(false, 0.1, 0.2),
      'worse',
    ],
    ['a change too small to speak of', verdict(true, 0.4, 0.2), verdict(true, 0.4004, 0.2), 'moved'],
  ] as const)('%s', (_, before, after, way) => {
    expect(wayBetween(before, after)).toBe(way);
  });

  it('of a measure goes by what the measure is about; of a mass it goes neither way', () => {
    const measure = (name: string, value: number) => ({
      name,
      title: name,
      says: '',
      source: '',
      unit: '1',
      value,
    });
    const before = report({ measures: [measure('leastLoadShare', 0.1), measure('longestOff', 0.1)] });
    const after = report({ mass: 7, measures: [measure('leastLoadShare', 0.2), measure('longestOff', 0.2)] });
    const ways = compareReports(before, after).map((change) => [
      change.kind === 'verdict' ? '' : change.name,
      wayOf(change),
    ]);
    expect(Object.fromEntries(ways)).toEqual({
      mass: 'moved',
      leastLoadShare: 'better',
      longestOff: 'worse',
    });
  });
});

describe('figures in words', () => {
  it('have the unit of their size, shares are in per cent, differences of shares in points', () => {
    expect(figureWords(0.045, 'm', 'leastClearance')).toBe('45 mm');
    expect(figureWords(0.123, '1', 'leastLoadShare')).toBe('12.3 %');
    expect(figureWords(1.2, '1', 'wheelDynamicLoadCoefficient')).toBe('1.2');
    expect(figureWords(null, 'm', 'leastClearance')).toBe('–');
    expect(differenceWords(0.05, '1', 'leastLoadShare', 0.2)).toBe('+5 points');
    expect(differenceWords(-0.002, 'm', 'leastClearance', 2)).toBe('−0.002 m');
    expect(differenceWords(null, 'm', 'leastClearance', 2)).toBe('');
  });
});
