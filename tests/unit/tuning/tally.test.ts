/* Seen red: best kept in the order of telling; the least violated among failed ones; the front with equals in it. */
import { describe, expect, it } from 'vitest';
import { resultsOf } from '../../../sim/tuning/results.ts';
import type { Sample } from '../../../sim/tuning/sample.ts';
import { answerOf, summaryOf } from '../../../sim/tuning/summary.ts';
import { Tally } from '../../../sim/tuning/tally.ts';
import { bars, studyOf } from './study.ts';

const goals = [{ measure: 'leastLoadShare' }, { measure: 'mass' }];
const criteria = [
  { kind: 'wheel-load', least: 0.2 },
  { kind: 'belly-clearance', least: 0.005 },
];
const study = studyOf(bars({ goals, criteria }));
const none = { goals: [null, null], short: [0, 0, 0], violation: 0, holds: false };

const sound = (n: number, share: number, mass: number): Sample => ({
  n,
  design: [n % 2, Math.floor(n / 2) % 3],
  goals: [share, mass],
  short: [0, 0, 0],
  violation: 0,
  holds: true,
});
const short = (n: number, by: readonly number[]): Sample => ({
  ...sound(n, 0.1, 6),
  short: by,
  violation: by.reduce((a, b) => a + b, 0),
  holds: false,
});

function results(samples: readonly Sample[]) {
  const tally = new Tally(study);
  for (const sample of samples) tally.add(sample);
  const about = [
    { title: 'Least load', unit: '1' },
    { title: 'Mass', unit: 'kg' },
  ];
  return resultsOf(study, tally, { today: none, driven: new Map(), drawn: new Map(), buy: [] }, about);
}

describe('the results of a study', () => {
  it('put designs that hold before those that do not, the best by the first goal first', () => {
    const { best, taken, held, tried } = results([
      sound(0, 0.3, 6),
      short(1, [0.1, 0, 0]),
      sound(2, 0.5, 6),
      sound(3, 0.4, 6),
    ]);
    expect(best.map(({ n }) => n)).toEqual([2, 3, 0, 1]);
    expect(taken?.n).toBe(2);
    expect([tried, held]).toEqual([4, 3]);
    expect(taken?.numbers).toEqual([
      { name: 'bars', unit: 'm', value: 0.002 },
      { name: 'middle preload', unit: 'N·m', value: 0.4 },
    ]);
  });

  it('say of no feasible design which criterion rules most out, and which design misses least', () => {
    const found = results([short(0, [0.1, 0.3, 0]), short(1, [0, 0.2, 0]), short(2, [0.5, 0.3, 0])]);
    expect(found.taken).toBeNull();
    expect(found.leastViolated?.n).toBe(1);
    expect(found.rulesOut).toEqual([
      { asks: expect.stringContaining('belly'), count: 3 },
      { asks: expect.stringContaining('wheel'), count: 2 },
    ]);
    const said = answerOf(found).join('\n');
    expect(said).toMatch(/No design holds all criteria. “The belly .*” rules out most: 3 of 3/);
    expect(said).toMatch(/Nearest: bars 2.5 mm, middle preload/);
  });

  it('count designs that could not be judged by their reason', () => {
    const failed = { ...short(0, [1, 1, 1]), goals: [null, null], failed: true as const, why: 'torn apart' };
    const found = results([failed, { ...failed, n: 1 }]);
    expect(found).toMatchObject({ failed: 2, held: 0, best: [], leastViolated: null, taken: null });
    expect(found.failures).toEqual([{ why: 'torn apart', count: 2 }]);
    expect(answerOf(found).join(' ')).toMatch(
      /No design could be judged. Most often: torn apart \(2 designs\)/,
    );
  });

  it('have on the front what no other beats in both goals, once', () => {
    const found = results([
      sound(0, 0.3, 5),
      sound(1, 0.5, 7),
      sound(2, 0.4, 7),
      sound(3, 0.5, 7),
      sound(4, 0.4, 6),
    ]);
    expect(found.front.map(({ n }) => n)).toEqual([1, 4, 0]);
  });

  it('show the field over the first two numbers with the best of each cell', () => {
    const { field } = results([sound(0, 0.3, 6), sound(3, 0.5, 6), sound(9, 0.6, 6)]);
    expect(field?.columns.map(({ at }) => at)).toEqual([0.002, 0.0025]);
    expect(field?.rows.map(({ at }) => at)).toEqual([0.3, 0.4, 0.5]);
    // 3 and 9 are of the same cell
    expect(field?.values).toEqual([
      [0.3, null],
      [null, 0.6],
      [null, null],
    ]);
  });

  it('become a page whose table cells hold no marks of its own', () => {
    const page = summaryOf({ ...results([sound(0, 0.3, 6)]), title: 'a|b *c*' });
    expect(page).toMatch(/^# a\\\|b \\\*c\\\*\n/);
    expect(page).toContain('## Best designs');
    expect(page).not.toMatch(/undefined|NaN|null/);
  });
});

it('a tally keeps no more of ten thousand samples than of a thousand, but counts them all', () => {
  const tally = new Tally(study);
  for (let n = 0; n < 10_000; n++) tally.add(sound(n, (n % 997) / 1000, 5 + (n % 13)));
  expect(tally.tried).toBe(10_000);
  expect(tally.shown.length).toBeLessThanOrEqual(2000);
  expect(tally.best.length).toBeLessThanOrEqual(50);
  expect(tally.field.length).toBe(6);
});
