/* Seen red: exit 0 without a safe speed; an axle line left out of the table. */
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { RoughReport } from '../../sim/cli/rough-report.ts';
import { command } from './command.ts';

let cwd = '';
beforeAll(() => {
  cwd = mkdtempSync(join(tmpdir(), 'axlewright-rough-'));
});
afterAll(() => rmSync(cwd, { recursive: true, force: true }));

const long = ['--set', 'ground[rough].length=6 m'];
const sweep = ['--speeds', '0.9m/s,1.8m/s', '--halvings', '0', '--rides', '1'];

describe('axlewright rough', () => {
  it('finds the fastest safe speed, and says what the figures stand on', async () => {
    const ran = await command(['rough', 'fell-4x4', ...long, ...sweep], { cwd });
    expect(ran.code).toBe(0);
    expect(ran.out).toMatch(/Fastest safe speed: 0\.9 m\/s; 1\.8 m\/s fails\./);
    expect(ran.out).toMatch(/independent segments/);
    expect(ran.out).toMatch(/Left out: what comes before all wheels/);
  });

  it('prints and writes every figure for programs', async () => {
    const ran = await command(['rough', 'fell-4x4', ...long, ...sweep, '--json', '--out', 'r'], { cwd });
    const report = JSON.parse(ran.out) as RoughReport;
    expect(report).toMatchObject({ mode: 'rough', pass: true, fastest: 0.9, fails: 1.8 });
    expect(report.speeds.map(({ speed, holds }) => [speed, holds])).toEqual([
      [0.9, true],
      [1.8, false],
    ]);
    const [slow] = report.speeds;
    expect(slow?.figures?.acceleration.low).toBeLessThan(slow?.figures?.acceleration.value ?? 0);
    expect(slow?.spectra?.frequency.length).toBe(slow?.spectra?.loads[0]?.density.length);
    const lines = (name: string) =>
      readFileSync(join(cwd, 'r', name), 'utf8')
        .trim()
        .split('\n');
    // two speeds with two axle lines each, and the head
    expect(lines('rough.csv').length).toBe(5);
    expect(lines('spectra.csv').length).toBe(
      1 + report.speeds.reduce((sum, { spectra }) => sum + (spectra?.frequency.length ?? 0), 0),
    );
    expect(lines('spectra.svg').join('')).toMatch(/^<svg .*Chassis acceleration.*<\/svg>$/);
    expect(lines('spectra.svg').join('')).not.toMatch(/NaN|Infinity/);
  });

  it('ends with 1 when no speed is safe, and says so even when it has to be quiet', async () => {
    const ran = await command(['rough', 'fell-4x4', ...long, '--speeds', '2m/s', '--rides', '1', '--quiet'], {
      cwd,
    });
    expect(ran.code).toBe(1);
    expect(ran.out).toBe('No speed that was tried is safe: 2 m/s fails.\n');
  });

  it('refuses a scenario without rough ground, and says what to add', async () => {
    const ran = await command(['rough', 'corrie-6x6'], { cwd });
    expect(ran.code).toBe(2);
    expect(ran.err).toMatch(/has no random rough ground/);
  });

  it.each(['fast', '2m/s:1m/s', '1m/s:2m/s:3m/s', '0m/s', '-1m/s'])(
    'refuses the speeds %s',
    async (speeds) => {
      const ran = await command(['rough', 'fell-4x4', `--speeds=${speeds}`], { cwd });
      expect(ran.code).toBe(2);
      expect(ran.err).toMatch(/Wanted: speeds above 0 with units/);
    },
  );

  it('warns where too little steady driving is left', async () => {
    const ran = await command(['rough', 'fell-4x4', '--set', 'ground[rough].length=0.5 m', '--rides', '1'], {
      cwd,
    });
    expect(ran.err).toMatch(/too little steady driving is left for statistics/);
    expect(ran.out).toMatch(/Too little steady driving is left for any figure/);
  });
});
