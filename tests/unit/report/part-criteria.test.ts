/*
 * Criteria on the parts and the mass of a vehicle.
 * Seen red: unknown ratings that pass; `of` that judges all parts; the limit itself counted as under it.
 */
import { describe, expect, it } from 'vitest';
import type { Verdict } from '../../../shared/report.ts';
import { appraise, compile, crawl, loadScenario } from '../../../sim/index.ts';
import { partIn, shipped } from '../ledger/truck.ts';
import type { Loose } from '../small-truck.ts';

/** Verdict on one criterion about the truck with shafts, crawled on beyond what its parts can take. */
function verdict(criterion: Loose, change: (document: Loose) => void = () => {}): Verdict {
  const document = shipped('cairn-6x6-shafts');
  change(document);
  document.criteria = [criterion];
  const read = loadScenario(document);
  if (!read.ok) throw new Error(JSON.stringify(read.problems, null, 2));
  const recording = crawl(read.value, { stations: 120, regardless: true });
  return appraise(read.value, recording).verdicts[0] as Verdict;
}

describe('part-use', () => {
  it('fails with the part that uses most of its rating, where, and by how much', () => {
    const got = verdict({ kind: 'part-use', most: '70 %' });
    expect(got).toMatchObject({
      asks: 'Every part stays under 70 % of its rating',
      pass: false,
      limit: 0.7,
      of: 'rear joint at the transfer',
    });
    expect(got.says).toMatch(/^Rear joint at the transfer carries .* at station \d+ mm and may carry /);
    expect(got.value).toBeGreaterThan(1);
  });

  it('looks at the running gear alone, at the drive line alone, or at the parts that are named', () => {
    expect(verdict({ kind: 'part-use', most: '70 %', of: 'running-gear' })).toMatchObject({
      asks: 'Every part of the running gear stays under 70 % of its rating',
      pass: true,
      of: 'front torsion bars',
    });
    expect(verdict({ kind: 'part-use', most: '70 %', of: 'drive-line' })).toMatchObject({ pass: false });
    expect(verdict({ kind: 'part-use', most: 0.5, parts: ['rear shaft', 'front shaft'] })).toMatchObject({
      asks: 'Rear shaft and front shaft stay under 50 % of their ratings',
      pass: true,
      of: 'rear shaft',
    });
    const unknown = verdict({ kind: 'part-use', most: 0.5, parts: ['propshaft'] });
    expect(unknown.pass).toBe(false);
    expect(unknown.says).toMatch(/no part called propshaft; its parts: .*rear shaft/);
  });

  it('fails for a part without a rating, unless such parts are left out', () => {
    const unrated = (document: Loose) => {
      delete partIn(document, 'beam shaft').rating;
    };
    const asked = { kind: 'part-use', most: 5 };
    expect(verdict(asked).pass).toBe(true);
    const strict = verdict(asked, unrated);
    expect(strict.pass).toBe(false);
    expect(strict.says).toMatch(/No rating is known of beam shaft\./);
    expect(verdict({ ...asked, unknown: 'leave-out' }, unrated)).toMatchObject({
      asks: 'Every part stays under 500 % of its rating, where that is known',
      pass: true,
    });
  });

  it('says so where nothing at all is known', () => {
    const bare = (document: Loose) => {
      delete document.vehicle.strength;
      delete document.vehicle.driveline;
      document.vehicle.drive.torquePerWheel = '0.5 N m';
    };
    const got = verdict({ kind: 'part-use', most: '70 %', of: 'running-gear' }, bare);
    expect(got).toMatchObject({ pass: false, value: null });
    expect(got.says).toMatch(/^Nothing is known to judge by\. No rating is known of /);
  });
});

describe('mass', () => {
  it('holds up to the mass that was asked for', () => {
    const read = loadScenario(shipped('cairn-6x6-shafts'));
    const whole = read.ok ? compile(read.value).mass : 0;
    expect(verdict({ kind: 'mass', most: whole })).toMatchObject({ pass: true, value: whole, unit: 'kg' });
    const over = verdict({ kind: 'mass', most: 0.999 * whole });
    expect(over).toMatchObject({
      pass: false,
      asks: expect.stringMatching(/comes out at no more than 3\.\d+ kg$/),
    });
  });
});
