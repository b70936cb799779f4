/*
 * `axlewright crawl`: what it prints, what it writes, what its own options do.
 * Seen red: each row named by the row below it; `each` not divided by the count; `--sharing` not handed on; `--stations 0`
 * let through; the report's mode left at 'drive'.
 */
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { csvParse } from 'd3-dsv';
import { afterAll, describe, expect, it } from 'vitest';
import type { Report } from '../../shared/report.ts';
import { jointsCsv } from '../../sim/cli/files/joints-csv.ts';
import { jointLines } from '../../sim/cli/text/joints.ts';
import { plain } from '../../sim/cli/text/style.ts';
import { smallTruck } from '../unit/small-truck.ts';
import { command } from './command.ts';
import { cart } from './fixture.ts';
import { crawlShape } from './report-shape.ts';

const cwd = mkdtempSync(join(tmpdir(), 'axlewright-crawl-'));
afterAll(() => rmSync(cwd, { recursive: true, force: true }));

/** Crawls the small truck and reads what came out as JSON. */
async function crawled(
  args: readonly string[] = [],
  document: unknown = smallTruck(),
): Promise<{ code: number | null; report: Report }> {
  const { code, out } = await command(['crawl', '-', '--json', ...args], {
    cwd,
    stdin: JSON.stringify(document),
  });
  return { code, report: JSON.parse(out) as Report };
}

describe('axlewright crawl', () => {
  it('prints loads, the greatest forces in joints, verdicts and the end', async () => {
    const { code, out } = await command(['crawl', '-'], { cwd, stdin: JSON.stringify(smallTruck()) });
    expect(code).toBe(0);
    for (const line of [
      /^guide +front-axle +force/m,
      /^pin +bogie +force/m,
      /^member +bogie +(push|pull)/m,
      /^ +bending .* at x −?\d/m,
    ])
      expect(out).toMatch(line);
    expect(out).toMatch(/Arrived at station/);
  });

  it('reports as JSON in the shape that is written down', async () => {
    const { report } = await crawled();
    expect(crawlShape.safeParse(report).error).toBeUndefined();
    expect(report.joints?.map(({ part, of, quantity }) => `${part} ${of} ${quantity}`)).toEqual([
      'guide front-axle force',
      'guide front-axle moment',
      'pin bogie force',
      'member bogie axial',
      'member bogie shear',
      'member bogie bending',
      'element front springs effort',
    ]);
  });

  it('gives the share of one of two springs', async () => {
    const { report } = await crawled();
    const spring = report.joints?.find(({ part }) => part === 'element');
    expect(spring?.count).toBe(2);
    expect(spring?.each).toBeCloseTo((spring?.value ?? Number.NaN) / 2, 12);
  });

  it('has no joints to tell of a cart without suspension', async () => {
    const { code, report } = await crawled([], cart());
    expect({ code, joints: report.joints }).toEqual({ code: 0, joints: [] });
  });

  it('writes the same forces as files, with every figure of the recording', async () => {
    const { code } = await command(['crawl', '-', '--out', 'results', '--quiet'], {
      cwd,
      stdin: JSON.stringify(smallTruck()),
    });
    expect(code).toBe(0);
    const folder = join(cwd, 'results');
    const names = ['events.csv', 'joints.csv', 'loads.svg', 'members.csv', 'recording.csv', 'report.json'];
    expect(readdirSync(folder).sort()).toEqual(names);
    const read = (name: string) => readFileSync(join(folder, name), 'utf8');
    const report = JSON.parse(read('report.json')) as Report;
    const joints = csvParse(read('joints.csv'));
    expect(joints.map((row) => Number(row.value))).toEqual(
      report.joints?.map(({ value }) => Number(value.toPrecision(9))),
    );
    const heads = csvParse(read('recording.csv')).columns;
    for (const head of [
      'elementEffort[front springs] (N)',
      'pinX[bogie] (N)',
      'pinMoment[front-axle] (N·m)',
      'bending[bogie] (N·m)',
    ])
      expect(heads).toContain(head);
    const bending = csvParse(read('members.csv')).map((row) => Math.abs(Number(row['bending (N·m)'])));
    const worst = report.joints?.find(({ quantity }) => quantity === 'bending')?.value;
    expect(Math.max(...bending)).toBeCloseTo(worst ?? Number.NaN, 8);
  });

  it('takes as many stations as it is told', async () => {
    const { report: coarse } = await crawled(['--stations', '20']);
    const { report: fine } = await crawled(['--stations', '300']);
    const last = (report: Report) => Math.max(...(report.joints ?? []).map(({ moment }) => moment.frame));
    expect(last(coarse)).toBeLessThan(last(fine));
  });

  it.each(['0', '-3', '1.5', 'many', '1e9'])('refuses %s stations', async (stations) => {
    const { code, err } = await command(['crawl', '-', '--stations', stations], {
      cwd,
      stdin: JSON.stringify(smallTruck()),
    });
    expect(code).toBe(2);
    expect(err).toContain('whole number from 1 to 100000');
  });

  it('shares the thrust as it is told, and says what it does not know', async () => {
    const { report: locked } = await crawled(['--sharing', 'locked']);
    const { report: open } = await crawled(['--sharing', 'motors']);
    const use = (report: Report) => report.measures.find(({ name }) => name === 'greatestGripUse')?.value;
    expect(use(locked)).not.toBe(use(open));
    const { code, err } = await command(['crawl', '-', '--sharing', 'fair'], {
      cwd,
      stdin: JSON.stringify(smallTruck()),
    });
    expect(code).toBe(2);
    expect(err).toContain('vehicle.drive.sharing');
  });

  it('ends where torque does not do, or goes on regardless', async () => {
    const weak = smallTruck();
    weak.vehicle.drive.torquePerWheel = '0.02 N m';
    const { code, report } = await crawled([], weak);
    expect({ code, end: report.end?.kind }).toEqual({ code: 1, end: 'stuck' });
    const onward = await crawled(['--regardless'], weak);
    expect(onward.report.end?.kind).toBe('arrived');
  });

  it('fails, and says why, for a vehicle that does not stand where it should begin', async () => {
    const steep = smallTruck();
    steep.ground = [{ kind: 'ramp', length: '3 m', angle: '45 deg' }];
    steep.run = { start: '1.5 m', until: '1.6 m' };
    const { code, out } = await command(['crawl', '-', '--out', 'steep'], {
      cwd,
      stdin: JSON.stringify(steep),
    });
    expect(code).toBe(1);
    expect(out).toContain('at the start it slides');
    expect(readFileSync(join(cwd, 'steep', 'joints.csv'), 'utf8').split('\n')).toHaveLength(2);
  });
});

describe('the table of joints', () => {
  const moment = { frame: 3, time: 1.5, station: 0.75 };
  const joints = [
    { part: 'rod', of: 'rod, upper', quantity: 'push', value: 14.2, unit: 'N', moment },
    { part: 'member', of: 'arm', quantity: 'axial', value: -37.6, unit: 'N', moment },
    {
      part: 'member',
      of: 'arm',
      quantity: 'bending',
      value: 2.34,
      unit: 'N·m',
      at: { x: -0.33, z: 0.077 },
      moment,
    },
    {
      part: 'element',
      of: 'bars',
      quantity: 'effort',
      value: -2.4,
      unit: 'N·m',
      count: 2,
      each: -1.2,
      moment,
    },
    { part: 'element', of: 'bars', quantity: 'stress', value: 3.8e8, unit: 'Pa', moment },
  ] as const;

  it('names a part once, and tells pulls from pushes in words', () => {
    const lines = jointLines(joints, plain).map((line) => line.replace(/ {2,}/g, ' | ').trim());
    expect(lines).toEqual([
      'part | of | what | greatest | of one | in the drawing | vehicle',
      'rod | rod, upper | push | 14.2 N | at 750 mm',
      'member | arm | push | 37.6 N | at 750 mm',
      '| bending | 2.34 N·m | at x −330 mm, z 77 mm | at 750 mm',
      'element | bars | effort | 2.4 N·m | 1.2 N·m | at 750 mm',
      '| shear stress | 380 MPa | at 750 mm',
    ]);
  });

  it('is nothing when there is nothing to tell', () => {
    expect(jointLines([], plain)).toEqual([]);
  });

  it('is a CSV with names quoted where they need it, and SI throughout', () => {
    const rows = csvParse(jointsCsv(joints));
    expect(rows[0]).toMatchObject({
      of: 'rod, upper',
      value: '14.2',
      each: '',
      'x (m)': '',
      'station (m)': '0.75',
    });
    expect(rows[2]).toMatchObject({ 'x (m)': '-0.33', 'z (m)': '0.077' });
    expect(rows[3]).toMatchObject({ count: '2', each: '-1.2', unit: 'N·m' });
  });
});
