/*
 * Forces in joints as they are recorded, found again and reported.
 * Seen red: the accelerations of a drive left out in the replay; the last peak taken for the first; rows for what carries
 * nothing; the spring's torque read off with its damping.
 */
import { describe, expect, it } from 'vitest';
import corrie from '../../../scenarios/corrie-6x6.json';
import { column, hasChannel, type Recording } from '../../../shared/recording.ts';
import { appraise, compile, crawl, drive, layGround, loadScenario } from '../../../sim/index.ts';
import { jointReports } from '../../../sim/joints/peaks.ts';
import { Replay } from '../../../sim/joints/replay.ts';
import { courseOf } from '../../../sim/scenario/course.ts';
import { crawlOver } from '../../../sim/statics/crawl.ts';

const loaded = loadScenario(corrie);
if (!loaded.ok) throw new Error(JSON.stringify(loaded.problems));
const scenario = loaded.value;
const mechanism = compile(scenario);
const still = crawl(scenario, { stations: 120 });
const moving = drive({ ...scenario, run: { ...scenario.run, time: 4 } });

const greatest = (recording: Recording, channel: 'bending' | 'shear', index: number) =>
  Math.max(...column(recording, channel, index));

describe.each([
  ['crawl', still],
  ['drive', moving],
] as const)('the forces of a %s', (mode, recording) => {
  it('come with it, and it says how it was made', () => {
    expect(recording.mode).toBe(mode);
    expect(hasChannel(recording, 'pinX')).toBe(true);
    expect(recording.joints).toEqual([
      'front-axle',
      'middle-arm',
      'rear-arm',
      'middle-housing',
      'rear-housing',
    ]);
    expect(recording.rods).toEqual(['middle-rod', 'rear-rod']);
    expect(recording.beams).toEqual(['middle-arm', 'rear-arm']);
    expect(recording.block.every(Number.isFinite)).toBe(true);
  });

  it('can be found again from its columns in any frame', () => {
    const replay = new Replay(mechanism, recording);
    for (let frame = 0; frame < recording.frames; frame += 17) {
      const forces = replay.at(frame);
      recording.beams.forEach((_, beam) => {
        // spins from frames at 240 a second instead of substeps: parts in 10⁵ of the weight of an arm
        const found = column(recording, 'bending', beam)[frame] as number;
        expect(Math.abs((forces.bending[beam] as number) - found)).toBeLessThan(1e-6 + 1e-5 * found);
      });
      expect(
        Math.abs((forces.pinX[1] as number) - (column(recording, 'pinX', 1)[frame] as number)),
      ).toBeLessThan(1e-3);
    }
  });

  it('are reported at their greatest, where that was', () => {
    const rows = jointReports(mechanism, recording);
    for (const { part, of, quantity, value, moment } of rows) {
      if (part !== 'member' || quantity === 'axial') continue;
      const beam = recording.beams.indexOf(of);
      expect(value).toBe(greatest(recording, quantity as 'bending', beam));
      expect(column(recording, quantity as 'bending', beam)[moment.frame]).toBe(value);
      expect(moment).toMatchObject({
        time: column(recording, 'time')[moment.frame],
        station: column(recording, 'station')[moment.frame],
      });
    }
    expect(appraise(scenario, recording)).toMatchObject({ mode, joints: rows });
  });

  it('leave out what never carried anything', () => {
    const named = jointReports(mechanism, recording).map(({ of }) => of);
    expect(named).not.toContain('middle-arm bump stop');
    expect(named.includes('front dampers')).toBe(mode === 'drive');
  });

  it('tell the torque of a bar from that of its bearings', () => {
    const rows = jointReports(mechanism, recording).filter(({ of }) => of === 'middle torsion bars');
    const row = (quantity: string) => rows.find((r) => r.quantity === quantity);
    const index = mechanism.elements.findIndex(({ name }) => name === 'middle torsion bars');
    // round, 2.5 mm, 96 mm long, G 79.3 GPa, preload 0.35 N·m as drawn: free at −preload/rate
    const rate = (79.3e9 * Math.PI * 0.0025 ** 4) / 32 / 0.096;
    const twists = column(recording, 'elementTravel', index).map((turn) => Math.abs(turn + 0.35 / rate));
    expect(row('twist')?.value).toBeCloseTo(Math.max(...twists), 9);
    // τ = G·(d/2)·twist/L
    expect((row('stress')?.value ?? 0) / ((79.3e9 * 0.00125 * Math.max(...twists)) / 0.096)).toBeCloseTo(
      1,
      9,
    );
    expect(row('stress')?.moment.frame).toBe(row('twist')?.moment.frame);
  });
});

describe('a recording without forces in joints', () => {
  const ground = layGround(scenario);
  const { start, until } = courseOf(scenario, ground);
  const bare = crawlOver(mechanism, ground, { start, until, stations: 120, forces: false });

  it('has all its other columns, at their places', () => {
    expect(hasChannel(bare, 'unbalanced')).toBe(false);
    expect(bare.columns.length).toBeLessThan(still.columns.length);
    for (const { channel, index } of bare.columns)
      expect(column(bare, channel, index), channel).toEqual(column(still, channel, index));
  });

  it('has none to report or to replay, and says so', () => {
    expect(jointReports(mechanism, bare)).toEqual([]);
    expect(() => column(bare, 'pinX')).toThrow(RangeError);
    expect(() => new Replay(mechanism, bare)).toThrow('made without the forces');
  });
});
