/*
 * `axlewright performance`: what it prints, refuses and returns.
 * Seen red: null printed as 0; the exit code of a missing drive line.
 */
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { csvParse } from 'd3-dsv';
import { afterAll, describe, expect, it } from 'vitest';
import type { PerformanceReport } from '../../sim/cli/performance-report.ts';
import { oneMotor } from '../unit/driveline/document.ts';
import { type Loose, smallTruck } from '../unit/small-truck.ts';
import { command } from './command.ts';
import { performanceShape } from './report-shape.ts';

const cwd = mkdtempSync(join(tmpdir(), 'axlewright-performance-'));
afterAll(() => rmSync(cwd, { recursive: true, force: true }));

function truck(spoil: (vehicle: Loose) => void = () => {}): string {
  const document = smallTruck();
  document.vehicle.driveline = oneMotor();
  delete document.vehicle.drive.torquePerWheel;
  spoil(document.vehicle);
  return JSON.stringify(document);
}

describe('axlewright performance', () => {
  it('tells speeds, pull, motors and what it took as typical', async () => {
    const { code, out, err } = await command(['performance', '-'], { cwd, stdin: truck() });
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out).toMatch(/^Top speed on the level: 2\.\d+ m\/s$/m);
    expect(out).toMatch(/^On the level at 0\.2 m\/s: .* W, .* at 7\.\d+ V/m);
    expect(out).toMatch(/^motor +103 N·mm +17\.2 A +110 W +not known +\d/m);
    expect(out).toMatch(
      /Taken as typical, test yours: efficiency typical of a bevel stage \(front final, rear/,
    );
    expect(Math.max(...out.split('\n').map((line) => line.length))).toBeLessThanOrEqual(100);
  });

  it('reports as JSON in the shape that is written down, with a crossing when asked for', async () => {
    const ran = await command(['performance', '-', '--crossing', '--json', '--out', 'p'], {
      cwd,
      stdin: truck(),
    });
    const report = JSON.parse(ran.out) as PerformanceReport;
    expect(performanceShape.safeParse(report).error).toBeUndefined();
    expect(report.level?.time).toBeNull();
    expect(report.crossing?.windUp).toHaveLength(1);
    const rows = csvParse(readFileSync(join(cwd, 'p', 'pull.csv'), 'utf8'));
    expect(rows).toHaveLength(report.line.length);
    expect(Number(rows[0]?.['thrust (N)'])).toBeCloseTo(report.line[0]?.thrust ?? 0, 6);
  });

  it('fails for a vehicle that does not move', async () => {
    const weak = truck((vehicle) => {
      vehicle.driveline.parts[0].stallTorque = '0.1 N mm';
    });
    const { code, out } = await command(['performance', '-', '--quiet'], { cwd, stdin: weak });
    expect({ code, out }).toEqual({ code: 1, out: 'It does not move on the level.\n' });
  });

  it('refuses a scenario without a drive line', async () => {
    const bare = truck((vehicle) => {
      delete vehicle.driveline;
      vehicle.drive.torquePerWheel = 1;
    });
    const { code, err } = await command(['performance', '-'], { cwd, stdin: bare });
    expect(code).toBe(2);
    expect(err).toMatch(/vehicle\.driveline: is missing, so there is nothing to tell/);
  });
});
