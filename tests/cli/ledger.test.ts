/*
 * `axlewright ledger` and `axlewright mass`: what they print, what they write, how they end.
 * Seen red: exit code 0 although a part gives; unknown parts in the table; `--at` not handed on.
 */
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { csvParse } from 'd3-dsv';
import { afterAll, describe, expect, it } from 'vitest';
import type { LedgerReport, MassReport } from '../../sim/cli/ledger-report.ts';
import { quietLedger } from '../../sim/cli/text/ledger.ts';
import { command } from './command.ts';
import { cart } from './fixture.ts';
import { ledgerShape, massShape } from './report-shape.ts';

const cwd = mkdtempSync(join(tmpdir(), 'axlewright-ledger-'));
afterAll(() => rmSync(cwd, { recursive: true, force: true }));
const few = ['--stations', '120'];

async function ledger(
  name: string,
  ...args: string[]
): Promise<{ code: number | null; report: LedgerReport }> {
  const { code, out } = await command(['ledger', name, '--json', ...few, ...args], { cwd });
  return { code, report: JSON.parse(out) as LedgerReport };
}

describe('axlewright ledger', () => {
  it('lists what could end the crossing, names the first to give, and tells what would help', async () => {
    const { code, out } = await command(['ledger', 'cairn-6x6-shafts', ...few], { cwd });
    expect(code).toBe(1);
    expect(out).toMatch(/^ *use {2}sort +of +what +carries +limit +worst at +limit known as$/m);
    expect(out).toMatch(
      /^ *1\d\d(\.\d)? % {2}joint +rear joint at the transfer +torque +\d+ N·mm +\d+ N·mm .* measured ± 10 %$/m,
    );
    expect(out).toMatch(/it is the first to give\./);
    expect(out).toMatch(/^what would help +top speed +mass +then +nearest to its limit$/m);
    expect(out).toMatch(/^A motor for each axle +0\.\d+ m\/s +\d\.\d+ kg/m);
    // loaded bars are told in joules and what that means
    expect(out).toMatch(/Stored energy: front torsion bars: \d+ mJ/);
    // the table of a person's own terminal is not cut, its sentences are
    expect(
      out
        .split('\n')
        .filter((line) => / [a-z]+ /.test(line))
        .every((line) => line.length <= 130),
    ).toBe(true);
  });

  it('holds for the second design, and is quiet then', async () => {
    const { code, out } = await command(['ledger', 'cairn-6x6-motors', '--quiet', ...few], { cwd });
    expect({ code, out }).toEqual({ code: 0, out: '' });
  });

  it('reports as JSON in the shape that is written down', async () => {
    const { code, report } = await ledger('cairn-6x6-shafts');
    expect(code).toBe(1);
    expect(ledgerShape.safeParse(report).error).toBeUndefined();
    expect(report.first?.of).toBe('rear joint at the transfer');
    expect(report.alternatives.map(({ kind }) => kind)).toEqual([
      'stronger-part',
      'more-reduction',
      'reduction-behind',
      'motor-per-axle',
      'less-mass',
    ]);
    expect(quietLedger(report)).toBe(`${report.ledger.says}\n`);
    const { report: short } = await ledger('cairn-6x6-shafts', '--no-alternatives');
    expect(short.alternatives).toEqual([]);
  });

  it('calls parts without a rating unknown, never safe, and does not fail for them', async () => {
    const stdin = JSON.stringify(cart());
    const { code, out } = await command(['ledger', '-', '--set', 'vehicle.drive.sharing=locked'], {
      cwd,
      stdin,
    });
    expect(code).toBe(0);
    expect(out).not.toMatch(/gives first/);
    const spring = await command(['ledger', 'corrie-6x6', ...few], { cwd });
    expect(spring.out).not.toMatch(/^ *[\d.]+ % {2}pin/m);
    expect(spring.out).toMatch(/Limit not known, and so not judged: pin front-axle/);
    expect(spring.out.replaceAll(/\s+/g, ' ')).toMatch(/parts have no rating: unknown, not safe/);
  });

  it('writes the ledger, the torque of each part over the crossing, and a picture', async () => {
    const out = join(cwd, 'results');
    const { code } = await command(
      ['ledger', 'cairn-6x6-shafts', '--out', out, '--no-alternatives', ...few],
      { cwd },
    );
    expect(code).toBe(1);
    expect(readdirSync(out).sort()).toEqual(['ledger.csv', 'ledger.svg', 'parts.csv', 'report.json']);
    const report = JSON.parse(readFileSync(join(out, 'report.json'), 'utf8')) as LedgerReport;
    const lines = csvParse(readFileSync(join(out, 'ledger.csv'), 'utf8'));
    expect(lines.map((row) => row.of)).toEqual(report.ledger.lines.map(({ of }) => of));
    const parts = csvParse(readFileSync(join(out, 'parts.csv'), 'utf8'));
    const uses = parts.map((row) => Number(row['use[rear joint at the transfer] (1)']));
    // nine digits are written
    expect(Math.max(...uses)).toBeCloseTo(report.first?.use ?? 0, 7);
    expect(parts.map((row) => Number(row['torque[rear joint at the transfer] (N·m)']))).toContainEqual(
      expect.closeTo(report.first?.carries ?? 0, 8),
    );
    expect(readFileSync(join(out, 'ledger.svg'), 'utf8')).toMatch(
      /^<svg .*rear joint at the transfer, torque/s,
    );
  });

  it('tells of a file that cannot be read what it tells everywhere', async () => {
    const { code, err } = await command(['ledger', 'no-such-truck'], { cwd });
    expect(code).toBe(2);
    expect(err).not.toBe('');
  });
});

describe('axlewright mass', () => {
  async function mass(name: string, ...args: string[]): Promise<{ code: number | null; report: MassReport }> {
    const { code, out } = await command(['mass', name, '--json', ...args], { cwd });
    return { code, report: JSON.parse(out) as MassReport };
  }

  it('says how heavy it may come out and what sets that', async () => {
    const { code, out: text } = await command(['mass', 'cairn-6x6-shafts'], { cwd });
    const out = text.replaceAll(/\s+/g, ' ');
    expect(code).toBe(1);
    expect(out).toMatch(
      /It may come out at 3\.\d+ kg, \d+(\.\d+)? % lighter than today's 3\.\d+ kg\. Set by rear joint/,
    );
    expect(out).toMatch(/wheels and parts of the drive line weigh what they weigh/);
  });

  it('reports as JSON in the shape that is written down, with its curve', async () => {
    const { code, report } = await mass('cairn-6x6-motors', '--curve', '--at', '-250 mm, 150 mm');
    expect(code).toBe(0);
    expect(massShape.safeParse(report).error).toBeUndefined();
    expect(report.spread).toEqual({ x: -0.25, z: 0.15 });
    // what the axles carry differs from a load that is spread
    const { report: spread } = await mass('cairn-6x6-motors');
    expect(Math.abs((spread.greatest ?? 0) - (report.greatest ?? 0))).toBeGreaterThan(0.05);
    expect(report.margin).toBeCloseTo((report.greatest ?? 0) / report.mass - 1, 12);
    expect(report.curve?.points.some((point) => Math.abs(point.mass - report.mass) < 1e-9)).toBe(true);
  });

  it('writes the curve', async () => {
    const out = join(cwd, 'curve');
    const { report } = await mass('cairn-6x6-shafts', '--curve', '--out', out);
    const rows = csvParse(readFileSync(join(out, 'mass.csv'), 'utf8'));
    expect(rows.map((row) => Number(row['size (m)']))).toEqual(
      report.curve?.points.map(({ size }) => expect.closeTo(size, 8)),
    );
  });

  it.each(['here', '1 m', '1 m, 2 kg', '1, 2, 3'])('refuses %s as a point', async (at) => {
    const { code, err } = await command(['mass', 'cairn-6x6-shafts', '--at', at], { cwd });
    expect(code).toBe(2);
    expect(err).toMatch(/point of the drawing/);
  });

  it('explains its options', async () => {
    const { out } = await command(['mass', '--help'], { cwd });
    for (const part of ['--at', '--curve', '--set', '--json', 'Examples:']) expect(out).toContain(part);
  });
});
