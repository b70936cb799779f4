/** The command as a process: what a person or a script sees of it. */
import { spawn } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { csvParse } from 'd3-dsv';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { axlewright, command, LAUNCHER } from './command.ts';
import { cart, type Json } from './fixture.ts';
import { checkShape, driveShape, standShape, unreadableShape } from './report-shape.ts';

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'axlewright-run-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Runs the command in the test's own folder. */
const run = (args: readonly string[], stdin = '') => command(args, { cwd: folder, stdin });

/** Runs the command on a document handed over by standard input. */
const runOn = (document: Json, ...args: string[]) => {
  const [verb = 'drive', ...options] = args;
  return run([verb, '-', ...options], JSON.stringify(document));
};

const read = (...path: string[]): string => readFileSync(join(folder, ...path), 'utf8');

describe('the process', () => {
  it('drives a scenario from standard input, prints the result and passes', async () => {
    const { code, out, err } = await axlewright(['drive', '-'], {
      cwd: folder,
      stdin: JSON.stringify(cart()),
    });
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out).toMatch(/^Made-up cart on level ground\n[\s\S]*All 2 criteria held\.\n$/);
  });

  it('fails with 1 when a criterion does, also with --json', async () => {
    const stdin = JSON.stringify(cart({ criteria: [{ kind: 'time', most: '0.1 s' }] }));
    const { code, out } = await axlewright(['drive', '-', '--json'], { cwd: folder, stdin });
    expect({ code, pass: driveShape.parse(JSON.parse(out)).pass }).toEqual({ code: 1, pass: false });
  });

  it('fails with 2 for bad input, and prints nothing as a result', async () => {
    const { code, out, err } = await axlewright(['drive', '-'], { cwd: folder, stdin: '{' });
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toMatch(/^standard input: 1 problem\n/);
  });

  it('writes the same bytes as any other process that runs the same scenario', async () => {
    writeFileSync(join(folder, 'same.json'), JSON.stringify(cart()));
    const process = await axlewright(['drive', 'same.json', '--out', 'process'], { cwd: folder });
    const within = await run(['drive', 'same.json', '--out', 'within']);
    expect([process.code, within.code]).toEqual([0, 0]);
    for (const name of readdirSync(join(folder, 'process')))
      expect(read('process', name), name).toBe(read('within', name));
  });
});

describe.skipIf(process.platform === 'win32')('an interrupt', () => {
  it('ends a long run at once and leaves no files behind', async () => {
    // An hour of standing about: far more than the test waits for, whatever the machine.
    const vehicle = cart().vehicle as { drive: Json };
    const parked = cart({
      vehicle: { ...vehicle, drive: { ...vehicle.drive, speed: 0 } },
      run: { time: '3600 s' },
      criteria: [],
    });
    writeFileSync(join(folder, 'parked.json'), JSON.stringify(parked));
    const child = spawn(process.execPath, [LAUNCHER, 'drive', 'parked.json', '--out', 'interrupted'], {
      cwd: folder,
      stdio: 'ignore',
    });
    setTimeout(() => child.kill('SIGINT'), 1500);
    const signal = await new Promise((resolve) => child.on('close', (_code, by) => resolve(by)));
    expect(signal).toBe('SIGINT');
    expect(readdirSync(folder)).not.toContain('interrupted');
  });
});

describe('axlewright drive', () => {
  it('prints wheels, verdicts and how the run ended, and passes', async () => {
    const { code, out, err } = await runOn(cart());
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out).toMatch(/^Made-up cart on level ground\nMade-up cart: 2 kg, /);
    expect(out).toMatch(/^front +1 +2 +9\.8\d N +4\.9\d N/m);
    expect(out).toMatch(/^PASS {2}/m);
    expect(out).toMatch(/Arrived at station .*\nAll 2 criteria held\.\n$/);
    // No terminal, no colour and no progress.
    expect(out + err).not.toContain('\u001b');
  });

  it('fails with 1 when a criterion does, and says which', async () => {
    const { code, out } = await runOn(cart({ criteria: [{ kind: 'time', most: '0.1 s' }] }));
    expect(code).toBe(1);
    expect(out).toMatch(/^FAIL {2}.*\n +\S.*\n\nArrived .*\n1 of 1 criterion failed\.\n$/m);
  });

  it('fails with 1 when the vehicle is stuck, also when no criterion asks', async () => {
    const wall = [
      { kind: 'flat', length: '0.4 m' },
      { kind: 'step', height: '90 mm', length: '0.5 m' },
    ];
    const { code, out } = await runOn(cart({ ground: wall, criteria: [] }));
    expect(code).toBe(1);
    expect(out).toMatch(/^Stuck at station /m);
  });

  it('prints one object of the documented shape with --json, and nothing else', async () => {
    const { code, out, err } = await runOn(cart(), 'drive', '--json');
    expect({ code, err }).toEqual({ code: 0, err: '' });
    const report = driveShape.parse(JSON.parse(out));
    expect(report.mass).toBeCloseTo(2, 12);
    expect(report.cg.x).toBeCloseTo(-0.1, 12);
    expect(report.wheels.map((wheel) => [wheel.id, wheel.axle, wheel.count])).toEqual([
      ['front', 1, 2],
      ['rear', 2, 2],
    ]);
    // The cart is symmetric: each axle line carries half its weight. 0.1 % is the accuracy promised for standing loads.
    for (const wheel of report.wheels) {
      expect(Math.abs(wheel.load / 9.80665 - 1)).toBeLessThan(0.001);
      expect(wheel.loadPerWheel).toBe(wheel.load / 2);
    }
    expect(report.pass).toBe(true);
  });

  it('is silent with --quiet when all holds', async () => {
    expect(await runOn(cart(), 'drive', '--quiet')).toEqual({ code: 0, out: '', err: '' });
  });

  it('says only what failed with --quiet', async () => {
    const { code, out, err } = await runOn(
      cart({ criteria: [{ kind: 'reaches' }, { kind: 'time', most: '0.1 s' }] }),
      'drive',
      '-q',
    );
    expect({ code, err }).toEqual({ code: 1, err: '' });
    expect(out).toMatch(/^FAIL {2}[^\n]*\n$/);
  });
});

describe('axlewright stand', () => {
  it('prints the standing loads, in the documented shape with --json', async () => {
    const { code, out } = await runOn(cart(), 'stand', '--json');
    expect(code).toBe(0);
    const report = standShape.parse(JSON.parse(out));
    const carried = report.wheels.reduce((sum, wheel) => sum + wheel.load, 0);
    expect(Math.abs(carried / (2 * 9.80665) - 1)).toBeLessThan(0.001);
  });

  it('follows a mass that --set moves: forward of the middle by a quarter of the wheelbase, 3 to 1', async () => {
    // 1.6 kg, 50 mm forward of the middle of a wheelbase of 200 mm: 1.6·(0.75 and 0.25) + 0.4·(½ and ½) kg.
    const { code, out } = await runOn(
      cart(),
      'stand',
      '--json',
      '--set',
      'vehicle.masses[plank].at.x=-50 mm',
    );
    expect(code).toBe(0);
    const [front, rear] = standShape.parse(JSON.parse(out)).wheels;
    expect(Math.abs((front?.load ?? 0) / (1.4 * 9.80665) - 1)).toBeLessThan(0.001);
    expect(Math.abs((rear?.load ?? 0) / (0.6 * 9.80665) - 1)).toBeLessThan(0.001);
  });
});

describe('a vehicle that does not stand', () => {
  it('fails with 1 and a reason, and with --json in the documented shape', async () => {
    // On 45° a parked vehicle needs a grip of 1; the tyres have 0.8.
    const ground = [
      { kind: 'flat', length: '0.3 m' },
      { kind: 'ramp', angle: '45 deg', length: '2 m' },
    ];
    const slope = cart({ ground, run: { start: '1 m' } });
    const { code, out, err } = await runOn(slope, 'stand');
    expect({ code, out }).toEqual({ code: 1, out: '' });
    expect(err).toMatch(
      /vehicle: the vehicle does not stand where it starts: it slides: it needs a grip of 1\.00/,
    );
    const json = await runOn(slope, 'stand', '--json');
    expect(unreadableShape.parse(JSON.parse(json.out)).mode).toBe('stand');
  });
});

describe('axlewright check', () => {
  it('says that a sound scenario is sound, without running it', async () => {
    const { code, out, err } = await runOn(cart(), 'check');
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out).toContain('2 axle lines, 1 body');
    expect(out).toContain('The scenario is sound.');
  });

  it('prints the documented shape with --json', async () => {
    const { code, out } = await runOn(cart(), 'check', '--json');
    expect(code).toBe(0);
    expect(checkShape.parse(JSON.parse(out)).mass).toBeCloseTo(2, 12);
  });

  it('lists every problem, one per line, with its path', async () => {
    const vehicle = cart().vehicle as Json & { masses: Json[]; wheels: Json[] };
    const broken = cart({
      vehicle: {
        ...vehicle,
        masses: [{ ...vehicle.masses[0], mass: '-1 kg' }],
        wheels: [{ ...vehicle.wheels[0], radius: 0 }, vehicle.wheels[1]],
      },
      runn: {},
    });
    const { code, out, err } = await runOn(broken, 'check');
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toMatch(/^standard input: 3 problems\n/);
    expect(err).toMatch(/^ {2}vehicle\.masses\[0\]\.mass: /m);
    expect(err).toMatch(/^ {2}vehicle\.wheels\[0\]\.radius: /m);
    expect(err).toMatch(/^ {2}runn: .*did you mean "run"\?/m);
  });

  it('prints the problems as JSON too, in the documented shape', async () => {
    const { code, out } = await runOn(cart({ version: 99 }), 'check', '--json');
    expect(code).toBe(2);
    expect(unreadableShape.parse(JSON.parse(out)).problems).toHaveLength(1);
  });
});

describe('--out', () => {
  it('writes recording, events, report and picture, and the same bytes for the same run', async () => {
    writeFileSync(join(folder, 'cart.json'), JSON.stringify(cart()));
    const first = await run(['drive', 'cart.json', '--out', 'results/one']);
    const second = await run(['drive', 'cart.json', '--out', 'results/two']);
    expect([first.code, second.code]).toEqual([0, 0]);
    const names = ['events.csv', 'joints.csv', 'loads.svg', 'members.csv', 'recording.csv', 'report.json'];
    expect(readdirSync(join(folder, 'results', 'one')).sort()).toEqual(names);
    for (const name of names) {
      expect(read('results', 'one', name), name).toBe(read('results', 'two', name));
      expect(first.err).toContain(join('results', 'one', name));
    }
  });

  it('writes files that can be read again and agree with each other', async () => {
    const { code, out } = await runOn(cart(), 'drive', '--json', '--out', 'agree');
    expect(code).toBe(0);
    const report = driveShape.parse(JSON.parse(read('agree', 'report.json')));
    expect(report).toEqual(JSON.parse(out));
    const rows = csvParse(read('agree', 'recording.csv'));
    const loads = rows.map((row) => Number(row['load[front] (N)']));
    // The file has nine digits of each value.
    expect(Math.max(...loads)).toBeCloseTo(report.wheels[0]?.greatestLoad ?? 0, 6);
    expect(Number(rows.at(-1)?.['station (m)'])).toBeCloseTo(report.end.station, 6);
    expect(csvParse(read('agree', 'events.csv'))).toHaveLength(report.events.length);
    expect(read('agree', 'loads.svg')).toMatch(/^<svg [\s\S]*<\/svg>\n$/);
    for (const name of readdirSync(join(folder, 'agree')))
      expect(read('agree', name), name).not.toMatch(/NaN|Infinity|undefined/);
  });

  it('writes only the report of a check or a stand', async () => {
    await runOn(cart(), 'check', '--out', 'checked');
    await runOn(cart(), 'stand', '--out', 'stood');
    expect([...readdirSync(join(folder, 'checked')), ...readdirSync(join(folder, 'stood'))]).toEqual([
      'report.json',
      'report.json',
    ]);
  });

  it('refuses a file in the place of the folder before anything runs, and leaves it alone', async () => {
    writeFileSync(join(folder, 'taken'), 'mine');
    const { code, out, err } = await runOn(cart(), 'drive', '--out', 'taken');
    expect({ code, out, err }).toEqual({
      code: 2,
      out: '',
      err: `axlewright: '${join(folder, 'taken')}' is a file, not a folder\n`,
    });
    expect(read('taken')).toBe('mine');
  });

  it('refuses a folder that cannot be made', async () => {
    const { code, out, err } = await runOn(cart(), 'drive', '--out', '/proc/axlewright');
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toMatch(/^axlewright: '\/proc\/axlewright' .*\n$/);
  });

  it('writes nothing for a scenario that cannot be read', async () => {
    const { code } = await run(['drive', '-', '--out', 'never'], '{');
    expect(code).toBe(2);
    expect(readdirSync(folder)).not.toContain('never');
  });
});

describe('--set', () => {
  it('on a path that is not there is refused with the near one', async () => {
    const { code, err } = await runOn(cart(), 'check', '--set', 'vehicle.drive.sped=1');
    expect(code).toBe(2);
    expect(err).toMatch(/--set vehicle\.drive\.sped: .*did you mean "speed"\?/);
  });

  it('on an entry that is not there is refused with the near one', async () => {
    const { code, err } = await runOn(cart(), 'check', '--set', 'vehicle.wheels[fron].radius=1');
    expect(code).toBe(2);
    expect(err).toMatch(/fron.*did you mean "front"\?/);
  });

  it('without a value is refused', async () => {
    const { code, err } = await runOn(cart(), 'check', '--set', 'title');
    expect(code).toBe(2);
    expect(err).toMatch(/--set: 'title' is no setting/);
  });

  it('with a value of the wrong dimension is refused by the field, as in the file', async () => {
    const { code, err } = await runOn(cart(), 'check', '--set', 'vehicle.drive.speed=3 kg');
    expect(code).toBe(2);
    expect(err).toMatch(/ {2}vehicle\.drive\.speed: .*speed/);
  });

  it('may be given again, and may fill in a field that the file leaves out', async () => {
    const { code, out } = await runOn(
      cart(),
      'drive',
      '--json',
      '--set',
      'run.until=0.3',
      '--set',
      'title="Shorter"',
    );
    expect(code).toBe(0);
    const report = driveShape.parse(JSON.parse(out));
    expect(report.title).toBe('Shorter');
    expect(report.end).toMatchObject({ kind: 'arrived' });
    expect(report.end.station).toBeGreaterThanOrEqual(0.3);
    // A frame at 0.4 m/s and 240 per second is 1.7 mm long.
    expect(report.end.station).toBeLessThan(0.302);
  });

  it('of a substep that is too long is refused before the run', async () => {
    const { code, err } = await runOn(cart(), 'check', '--set', 'run.substep=9 ms');
    expect(code).toBe(2);
    expect(err).toMatch(/run\.substep: .*too long/);
  });
});
