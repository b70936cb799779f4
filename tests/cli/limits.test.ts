/*
 * `axlewright limits`: what it prints, what it writes, what its own options do.
 * Seen red: margin with the wrong sign; `--grip` not handed on.
 */
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { csvParse } from 'd3-dsv';
import { afterAll, describe, expect, it } from 'vitest';
import type { LimitsReport } from '../../sim/cli/report-json.ts';
import { limitsText, quietLimits } from '../../sim/cli/text/limits.ts';
import { plain } from '../../sim/cli/text/style.ts';
import { command } from './command.ts';
import { cart } from './fixture.ts';
import { limitsShape } from './report-shape.ts';

const cwd = mkdtempSync(join(tmpdir(), 'axlewright-limits-'));
afterAll(() => rmSync(cwd, { recursive: true, force: true }));

const stdin = (changes = {}) => JSON.stringify(cart(changes));

async function limits(
  args: readonly string[] = [],
  changes = {},
): Promise<{ code: number | null; report: LimitsReport }> {
  const { code, out } = await command(['limits', '-', '--json', ...args], { cwd, stdin: stdin(changes) });
  return { code, report: JSON.parse(out) as LimitsReport };
}

describe('axlewright limits', () => {
  it("prints one obstacle per row with its limit, what today's ground has of it, and what stops it", async () => {
    const ground = [
      { kind: 'flat', length: '0.5 m' },
      { kind: 'step', height: '5 mm', length: '1 m' },
    ];
    const { code, out, err } = await command(['limits', '-', '--grip', '0.5'], {
      cwd,
      stdin: stdin({ ground }),
    });
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out).toMatch(
      /^Step up +[\d.]+ mm +5 mm +[\d.]+ % +grip: .* needs a grip of 0\.5\d* and has 0\.5/m,
    );
    expect(out).toMatch(/^Grade up +26\.\d° +– +– +grip: /m);
    expect(out).toMatch(/every tyre with a grip of 0\.5/);
    expect(out).toMatch(/All such obstacles of today's ground lie within the limits\.\n$/);
    expect(Math.max(...out.split('\n').map((line) => line.length))).toBeLessThanOrEqual(100);
  });

  it('reports as JSON in the shape that is written down', async () => {
    const { code, report } = await limits();
    expect(code).toBe(0);
    expect(limitsShape.safeParse(report).error).toBeUndefined();
    expect(report.limits.map(({ kind }) => kind)).toEqual([
      'step-up',
      'step-down',
      'trench',
      'grade-up',
      'grade-down',
      'staggered-log',
    ]);
    expect(report.grip).toBeNull();
  });

  it("fails for an obstacle of today's ground beyond its limit, and says it also when it is to be quiet", async () => {
    const ground = [
      { kind: 'flat', length: '0.5 m' },
      { kind: 'trench', width: '300 mm', depth: '200 mm' },
      { kind: 'flat', length: '0.5 m' },
    ];
    const { code, report } = await limits(['--only', 'trench'], { ground });
    expect({ code, pass: report.pass }).toEqual({ code: 1, pass: false });
    const entry = report.limits.find(({ kind }) => kind === 'trench');
    expect(entry?.today).toBe(0.3);
    expect(entry?.margin).toBeCloseTo((entry?.limit ?? 0) / 0.3 - 1, 12);
    expect(quietLimits(report)).toMatch(/^Trench: 300 mm on today's ground, the limit is [\d.]+ mm: .+\n$/);
    const { out } = await command(['limits', '-', '--quiet', '--only', 'trench'], {
      cwd,
      stdin: stdin({ ground }),
    });
    expect(out).toBe(quietLimits(report));
  });

  it('says of a vehicle without drive that it does not even cross level ground', async () => {
    const { code, out } = await command(['limits', '-', '--set', 'vehicle.drive.torquePerWheel=0'], {
      cwd,
      stdin: stdin(),
    });
    expect(code).toBe(1);
    expect(out).toMatch(/does not even cross level ground: \w+ needs [\d.]+ N·m and has 0/);
    expect(out).not.toMatch(/Step up/);
  });

  it('writes curves over grip and mass', async () => {
    const out = join(cwd, 'results');
    const { code, report } = await limits(['--curves', '--only', 'step-up', '--out', out]);
    expect(code).toBe(0);
    expect(limitsShape.safeParse(report).error).toBeUndefined();
    const rows = csvParse(readFileSync(join(out, 'curves.csv'), 'utf8'));
    const step = report.limits[0];
    const over = (axis: string) => rows.filter((row) => row.kind === 'step-up' && row.over === axis);
    expect(over('grip').map((row) => Number(row.at))).toEqual([
      0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1, 1.1, 1.2,
    ]);
    expect(over('grip').map((row) => row['stopped by'])).toEqual(step?.overGrip?.map(({ by }) => by ?? ''));
    expect(over('mass').map((row) => Number(row.limit))).toEqual(
      step?.overMass?.map(({ size }) => expect.closeTo(size, 8)),
    );
    // 0.8 is the grip of the cart's tyres: there the curve, to 0.5 %, meets the table, to 0.1 %
    const own = step?.overGrip?.find(({ at }) => at === 0.8);
    expect(Math.abs((own?.size ?? 0) / (step?.limit ?? 1) - 1)).toBeLessThan(0.01);
    const text = limitsText(report, plain, 120);
    expect(text).toMatch(/^grip +0\.2 +0\.3 .* 1\.2$/m);
    expect(text).toMatch(/^mass +1\.20 kg +.* +3\.60 kg$/m);
    expect(text).toMatch(/^Step up, mm +[\d.]+g /m);
  });

  it.each(['-1', '4', 'sticky', '2 mm'])('refuses a grip of %s', async (grip) => {
    const { code, err } = await command(['limits', '-', `--grip=${grip}`], { cwd, stdin: stdin() });
    expect(code).toBe(2);
    expect(err).toMatch(/from 0 to 3/);
  });

  it('looks for those kinds of obstacles that are named, and refuses others', async () => {
    const { report } = await limits(['--only', 'trench, step-up']);
    expect(report.limits.map(({ kind }) => kind)).toEqual(['step-up', 'trench']);
    const { code, err } = await command(['limits', '-', '--only', 'river'], { cwd, stdin: stdin() });
    expect(code).toBe(2);
    expect(err).toMatch(/'river' is no obstacle. Wanted: step-up, /);
  });

  it('explains its options', async () => {
    const { out } = await command(['limits', '--help'], { cwd });
    for (const part of ['--grip', '--only', '--curves', '--set', '--json', 'Examples:'])
      expect(out).toContain(part);
  });
});
