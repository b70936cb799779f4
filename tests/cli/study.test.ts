/*
 * `axlewright study` as a process, as a person would give it: results, resuming, interrupts, refusals.
 * Seen red: journal not written anew in order; --resume computing again; the head not compared.
 */
import { spawn } from 'node:child_process';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { StudyReport } from '../../sim/cli/tuned-report.ts';
import { axlewright, command, LAUNCHER } from './command.ts';
import { cart, type Json } from './fixture.ts';

/** Processes of their own take their time on a machine that is busy. */
const MINUTES = 180_000;

let cwd = '';
beforeAll(() => {
  cwd = mkdtempSync(join(tmpdir(), 'axlewright-study-'));
  writeFileSync(join(cwd, 'cart.json'), JSON.stringify(cart()));
});
afterAll(() => rmSync(cwd, { recursive: true, force: true }));

const cargo = 'vehicle.masses[plank].at.x';

/** A study of where the plank of the cart lies: `steps` × 3 designs. */
function plank(name: string, steps: number, changes: Json = {}): string {
  const study = {
    format: 'axlewright-study',
    version: 1,
    title: 'Where the plank lies',
    scenario: 'cart.json',
    vary: [
      { name: 'plank', of: cargo, from: '-150 mm', to: '-50 mm', steps },
      { name: 'weight', of: 'vehicle.masses[plank].mass', values: ['1 kg', '1.6 kg', '2.4 kg'] },
    ],
    run: { stations: 20, confirm: 1 },
    method: { kind: 'full-grid' },
    ...changes,
  };
  writeFileSync(join(cwd, name), JSON.stringify(study));
  return name;
}

const linesOf = (folder: string): string[] =>
  readFileSync(join(cwd, folder, 'journal.jsonl'), 'utf8')
    .split('\n')
    .slice(0, -1);

/** All files of a folder with their bytes as text. */
const filesOf = (folder: string): Record<string, string> =>
  Object.fromEntries(
    readdirSync(join(cwd, folder))
      .sort()
      .map((name) => [name, readFileSync(join(cwd, folder, name), 'utf8')]),
  );

/** Starts a study and ends it with a signal once its journal has so many lines. */
async function endedAfter(args: readonly string[], out: string, lines: number, signal: NodeJS.Signals) {
  const child = spawn(process.execPath, [LAUNCHER, 'study', ...args, '--out', out], { cwd, stdio: 'pipe' });
  let heard = '';
  child.stderr.setEncoding('utf8').on('data', (text: string) => {
    heard += text;
  });
  const closed = new Promise<number | null>((resolve) => child.on('close', resolve));
  const path = join(cwd, out, 'journal.jsonl');
  const timer = setInterval(() => {
    if (!existsSync(path) || readFileSync(path, 'utf8').split('\n').length <= lines) return;
    clearInterval(timer);
    child.kill(signal);
  }, 5);
  const code = await closed;
  clearInterval(timer);
  return { code, heard };
}

describe('axlewright study', () => {
  it(
    'writes the same files by 1, 2 and 4 workers',
    async () => {
      const file = plank('workers.json', 7);
      for (const workers of ['1', '2', '4']) {
        const ran = await axlewright(['study', file, '--out', `w${workers}`, '--workers', workers], { cwd });
        expect(ran.code, ran.err).toBe(0);
      }
      const one = filesOf('w1');
      expect(Object.keys(one)).toEqual([
        'field.svg',
        'journal.jsonl',
        'report.json',
        'samples.csv',
        'summary.md',
        'tornado.svg',
      ]);
      expect(filesOf('w2')).toEqual(one);
      expect(filesOf('w4')).toEqual(one);
      // head, today's design, 21 samples, one that was driven
      expect(linesOf('w1').length).toBe(24);
      const csv = (one['samples.csv'] ?? '').trim().split('\n');
      expect(csv.length).toBe(22);
      expect(csv[0]).toMatch(/^n,plank \(m\),weight \(kg\),leastLoadShare \(1\),holds,violation,missed: /);
    },
    MINUTES,
  );

  it('prints its results for programs, and for people', async () => {
    const file = plank('printed.json', 3);
    const ran = await command(['study', file, '--json'], { cwd });
    expect(ran.code).toBe(0);
    const report = JSON.parse(ran.out) as StudyReport;
    expect(report).toMatchObject({
      mode: 'study',
      tried: 9,
      held: 9,
      failed: 0,
      pass: true,
      method: 'full-grid',
      by: 'crawl',
    });
    expect(report.taken?.driven?.holds).toBe(true);
    expect(report.dials.map(({ name, unit, now }) => [name, unit, now])).toEqual([
      ['plank', 'm', -0.1],
      ['weight', 'kg', 1.6],
    ]);
    const said = await command(['study', file], { cwd });
    expect(said.out).toMatch(/Tried 9 designs: all criteria hold for 9/);
    expect(said.out).toMatch(/Take: plank .* mm, weight .* kg/);
  });

  it(
    'goes on after it was killed, loses at most what its workers were at, and computes nothing twice',
    async () => {
      const file = plank('killed.json', 400);
      const { code } = await endedAfter([file, '--workers', '2'], 'killed', 40, 'SIGKILL');
      expect(code).toBeNull();
      const before = linesOf('killed');
      expect(before.length).toBeGreaterThan(38);
      expect(before.length).toBeLessThan(1200);
      const ran = await axlewright(['study', file, '--out', 'killed', '--resume', '--workers', '2'], { cwd });
      expect(ran.code, ran.err).toBe(0);
      const whole = await axlewright(['study', file, '--out', 'whole', '--workers', '2'], { cwd });
      expect(whole.code, whole.err).toBe(0);
      expect(filesOf('killed')).toEqual(filesOf('whole'));
    },
    MINUTES,
  );

  it('takes from the journal what is there, and computes only the rest', async () => {
    const file = plank('kept.json', 3);
    await command(['study', file, '--out', 'kept'], { cwd });
    const path = join(cwd, 'kept', 'journal.jsonl');
    // a design that came to something else: a resumed study must believe it; and a last line that was cut off
    const lines = linesOf('kept').filter((line) => !line.includes('"of":"driven"'));
    const changed = lines.map((line) =>
      line.includes('"n":4') ? line.replace(/"goals":\[[^\]]*\]/, '"goals":[0.999]') : line,
    );
    writeFileSync(path, `${changed.join('\n')}\n{"of":"sample","n":7,"des`);
    const ran = await command(['study', file, '--out', 'kept', '--resume', '--json'], { cwd });
    const report = JSON.parse(ran.out) as StudyReport;
    expect(report.taken).toMatchObject({ n: 4, goals: [0.999] });
    expect(linesOf('kept').length).toBe(12);
  });

  it(
    'keeps what is done on Ctrl-C and says how to go on',
    async () => {
      const file = plank('stopped.json', 400);
      const { code, heard } = await endedAfter([file, '--workers', '1'], 'stopped', 30, 'SIGINT');
      expect(code).toBe(2);
      expect(heard).toMatch(/stopped; \d+ designs are kept in .*journal\.jsonl': go on with --resume/);
      const kept = Number(/stopped; (\d+)/.exec(heard)?.[1]);
      expect(linesOf('stopped').length).toBe(kept + 1);
      expect(readdirSync(join(cwd, 'stopped'))).toEqual(['journal.jsonl']);
    },
    MINUTES,
  );
});

describe('a folder that has a journal', () => {
  it('is not begun anew without a word', async () => {
    const file = plank('again.json', 3);
    await command(['study', file, '--out', 'again'], { cwd });
    const before = filesOf('again');
    const ran = await command(['study', file, '--out', 'again'], { cwd });
    expect(ran.code).toBe(2);
    expect(ran.err).toMatch(/holds 11 designs of this study already: add --resume/);
    expect(filesOf('again')).toEqual(before);
  });

  it('is refused when the study or the scenario has changed, saying what', async () => {
    const file = plank('changed.json', 3);
    await command(['study', file, '--out', 'changed'], { cwd });
    const before = filesOf('changed');
    plank('changed.json', 3, { seed: 9 });
    const seed = await command(['study', file, '--out', 'changed', '--resume'], { cwd });
    expect(seed.code).toBe(2);
    expect(seed.err).toMatch(/is of another study or scenario: study\.seed was 1, is 9/);
    plank('changed.json', 3, { scenario: 'other.json' });
    writeFileSync(join(cwd, 'other.json'), JSON.stringify(cart({ gravity: 1.62 })));
    const moon = await command(['study', file, '--out', 'changed', '--resume'], { cwd });
    expect(moon.err).toMatch(/scenario\.gravity was 9\.80665, is 1\.62/);
    expect(filesOf('changed')).toEqual(before);
  });

  it('that is something else is left alone', async () => {
    mkdirSync(join(cwd, 'notes'));
    writeFileSync(join(cwd, 'notes', 'journal.jsonl'), 'my notes\n');
    const ran = await command(['study', plank('notes.json', 3), '--out', 'notes'], { cwd });
    expect(ran.code).toBe(2);
    expect(ran.err).toMatch(/is no journal of a study/);
    expect(readFileSync(join(cwd, 'notes', 'journal.jsonl'), 'utf8')).toBe('my notes\n');
  });
});

describe.runIf(process.platform === 'linux')('a disk that is full', () => {
  it('is told clearly', async () => {
    mkdirSync(join(cwd, 'full'));
    symlinkSync('/dev/full', join(cwd, 'full', 'journal.jsonl'));
    const ran = await command(['study', plank('full.json', 3), '--out', 'full'], { cwd });
    expect(ran.code).toBe(2);
    expect(ran.err).toMatch(/journal\.jsonl' cannot be written: the disk is full/);
  });
});

describe('bad input', () => {
  it('is told with all its problems at once, for people and programs', async () => {
    const file = plank('bad.json', 3, {
      vary: [
        { of: cargo, from: '-50 mm', to: '-150 mm' },
        { of: cargo, values: [] },
      ],
    });
    const ran = await command(['study', file, '--json'], { cwd });
    expect(ran.code).toBe(2);
    expect(ran.err).toMatch(
      /vary\[0\]: runs from −50 mm down to −150 mm \('from' is the lesser value: swap the two\)/,
    );
    expect(ran.err).toMatch(/vary\[1\]\.values: is an empty list/);
    expect(JSON.parse(ran.out)).toMatchObject({
      mode: 'study',
      pass: false,
      problems: [{ path: 'vary[0]' }, { path: 'vary[1].values' }],
    });
  });

  it.each(['/etc/passwd', '../cart.json', '-'])(
    'does not read a scenario outside of its folder: %s',
    async (scenario) => {
      const ran = await command(['study', plank('outside.json', 3, { scenario })], { cwd });
      expect(ran.code).toBe(2);
      expect(ran.err).toMatch(/lies outside of the study's folder, so it is not read/);
    },
  );

  it('that leaves no design to choose says which criterion rules most out, and the nearest design', async () => {
    const criteria = [
      { kind: 'wheel-load', least: 1 },
      { kind: 'mass', most: '0.9 kg' },
    ];
    const ran = await command(['study', plank('none.json', 3, { criteria }), '--json'], { cwd });
    expect(ran.code).toBe(1);
    const report = JSON.parse(ran.out) as StudyReport;
    expect(report).toMatchObject({ pass: false, held: 0, taken: null });
    expect(report.rulesOut[0]).toMatchObject({ count: 9 });
    // the lightest misses the mass by least
    expect(report.leastViolated?.numbers[1]).toMatchObject({ name: 'weight', value: 1 });
    expect(report.answer.join(' ')).toMatch(/rules out most: 9 of 9\. Nearest: plank/);
  });

  it.each([['0'], ['1.5'], ['x']])('refuses %s workers', async (workers) => {
    const ran = await command(['study', 'x.json', '--workers', workers], { cwd });
    expect(ran.code).toBe(2);
    expect(ran.err).toMatch(/whole number from 1 to 256/);
  });

  it('--resume without a folder is refused', async () => {
    const ran = await command(['study', plank('nowhere.json', 3), '--resume'], { cwd });
    expect(ran.code).toBe(2);
    expect(ran.err).toMatch(/--resume needs --out/);
  });
});
