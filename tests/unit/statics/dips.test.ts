/*
 * A crossing finds what happens between its stations.
 * Seen red: stations added at contact changes only (the flagship's least load then reads 9.18 % instead of 8.40 %).
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { appraise, crawl, loadScenario } from '../../../sim/index.ts';

const read = loadScenario(
  readFileSync(new URL('../../../scenarios/corrie-6x6.json', import.meta.url), 'utf8'),
);

/** Least load share of the flagship's crossing drawn through this many stations. */
function leastShare(stations: number): number {
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  const report = appraise(read.value, crawl(read.value, { stations }));
  return report.measures.find((m) => m.name === 'leastLoadShare')?.value ?? Number.NaN;
}

describe('a wheel that is light for a millimetre only', () => {
  const close = leastShare(4000);

  it.each([150, 200, 400])('is found by a crossing of %i stations', (stations) => {
    // the dip is 0.8 % of the standing load deep: a twentieth of that is far more than what finer stations add
    expect(Math.abs(leastShare(stations) - close)).toBeLessThan(0.0004);
  });
});
