import { describe, expect, it } from 'vitest';
import type { Measure } from '../../../shared/report.ts';
import type { Run } from '../../../sim/report/criterion.ts';
import { measureKinds } from '../../../sim/report/measures/registry.ts';
import { standingMeasures } from '../../../sim/report/measures/standing.ts';
import { bodyOf, hop, recordingOf, truck, type Written, wheelOf } from './fixture.ts';

const runOf = (written: Written = {}, mechanism = truck()): Run => ({
  mechanism,
  recording: recordingOf(mechanism, written),
});
const all = (run: Run): readonly Measure[] => measureKinds.flatMap((kind) => kind.measure(run));

/** The one measure of this name (and wheel, member or bogie). */
function only(run: Run, name: string, of?: string): Measure {
  const found = all(run).filter((m) => m.name === name && (of === undefined || m.of === of));
  expect(found, `measures called ${name}`).toHaveLength(1);
  return found[0] as Measure;
}

describe('least load', () => {
  // Frame 96 is at 0.4 s: the dip of the middle wheel to 5 N of its 20.
  const dip = {
    fill: { load: (t: number, wheel: number) => (wheel === 1 && Math.abs(t - 0.4) < 1e-9 ? 5 : 20) },
  };

  it('is the least frame of a wheel, and its share of the standing load', () => {
    const run = runOf(dip);
    expect(only(run, 'wheelLeastLoad', 'middle')).toMatchObject({
      value: 5,
      unit: 'N',
      moment: { frame: 96, time: 0.4, station: 0.2 },
    });
    expect(only(run, 'wheelLeastLoadShare', 'middle').value).toBe(0.25);
    expect(only(run, 'wheelLeastLoadShare', 'front').value).toBe(1);
    expect(only(run, 'leastLoadShare')).toMatchObject({ value: 0.25, of: 'middle', moment: { frame: 96 } });
  });

  it('is 0 where the wheel left the ground between two frames', () => {
    const run = runOf({ ...dip, events: hop('rear', 0.1001, 0.002) });
    expect(only(run, 'leastLoadShare')).toMatchObject({
      value: 0,
      of: 'rear',
      moment: { frame: 24, time: 0.1001 },
    });
  });

  it('has no share where the wheel carries nothing when standing', () => {
    const run = runOf({ standing: { loads: [0, 30, 30] } });
    expect(only(run, 'wheelLeastLoadShare', 'front').value).toBeNull();
    expect(only(run, 'leastLoadShare')).toMatchObject({ value: 20 / 30, of: 'middle' });
  });
});

describe('greatest load share', () => {
  it('is the greatest frame over the standing load', () => {
    const run = runOf({ fill: { load: (_, wheel, frame) => (wheel === 2 && frame === 10 ? 50 : 20) } });
    expect(only(run, 'wheelGreatestLoadShare', 'rear')).toMatchObject({ value: 2.5, moment: { frame: 10 } });
    expect(only(run, 'greatestLoadShare')).toMatchObject({ value: 2.5, of: 'rear' });
  });
});

describe('time off the ground', () => {
  it('sums flights to a share and gives the longest', () => {
    const events = [...hop('middle', 0.2, 0.038), ...hop('middle', 0.4, 0.062)];
    const run = runOf({ frames: 241, events });
    expect(only(run, 'wheelTimeOff', 'middle').value).toBeCloseTo(0.1, 12);
    expect(only(run, 'wheelLongestOff', 'middle')).toMatchObject({
      value: 0.062,
      unit: 's',
      moment: { time: 0.4 },
    });
    expect(only(run, 'longestOff')).toMatchObject({ value: 0.062, of: 'middle' });
    expect(only(run, 'wheelTimeOff', 'front').value).toBe(0);
    expect(only(run, 'wheelLongestOff', 'front').value).toBe(0);
  });
});

describe('load spread in a bogie', () => {
  it('is the difference of its wheels over their mean standing load', () => {
    // At frame 7: middle 35 N, rear 5 N; mean standing load 20 N: (35 − 5)/20. Else 22 and 18: 0.2.
    const load = (_: number, wheel: number, frame: number) => {
      if (wheel === 0) return 80;
      if (frame === 7) return wheel === 1 ? 35 : 5;
      return wheel === 1 ? 22 : 18;
    };
    const run = runOf({ frames: 10, fill: { load } });
    expect(only(run, 'bogieLoadSpread')).toMatchObject({ of: 'rear beam', value: 1.5, moment: { frame: 7 } });
    expect(only(run, 'bogieMeanLoadSpread').value).toBeCloseTo((9 * 0.2 + 1.5) / 10, 12);
  });

  it('compares single wheels where one line has twins', () => {
    // 40 N on four wheels and 20 N on two are 10 N each: an even share.
    const wheels = [wheelOf('middle', 1, 2, 0, { count: 4 }), wheelOf('rear', 2, 2, -0.1)];
    const run = runOf(
      { fill: { load: (_, wheel) => (wheel === 0 ? 40 : 20) }, standing: { loads: [40, 20] } },
      truck({ wheels }),
    );
    expect(only(run, 'bogieLoadSpread').value).toBe(0);
  });

  it('has no value where the vehicle has no bogie', () => {
    const mechanism = truck({
      bodies: [bodyOf('chassis', -1)],
      wheels: [wheelOf('only', 1, 0, 0)],
      members: [],
    });
    expect(only(runOf({}, mechanism), 'bogieLoadSpread')).toMatchObject({ value: null });
  });
});

describe('travel', () => {
  it('is measured from the drawn position to both sides, and over what is available', () => {
    const motion = (_: number, member: number, frame: number) =>
      (member === 0 ? [0, 0.018, -0.006][frame] : [0, 0, -0.33][frame]) ?? 0;
    const run = runOf({ frames: 3, fill: { motion } });
    expect(only(run, 'memberBump', 'front axle')).toMatchObject({
      value: 0.018,
      unit: 'm',
      moment: { frame: 1 },
    });
    expect(only(run, 'memberBumpUsed', 'front axle').value).toBeCloseTo(0.9, 12);
    expect(only(run, 'memberDroopUsed', 'front axle').value).toBeCloseTo(0.4, 12);
    expect(only(run, 'memberDroop', 'rear beam')).toMatchObject({ value: 0.33, unit: 'rad' });
    expect(only(run, 'memberDroopUsed', 'rear beam').value).toBeCloseTo(1.1, 12);
    expect(only(run, 'memberBump', 'rear beam').value).toBe(0);
  });

  it('has no share without a stop, and none where no travel is available', () => {
    const members = truck().members.map(({ bump: _b, droop: _d, ...member }) => member);
    expect(all(runOf({}, truck({ members }))).filter((m) => m.name === 'memberBumpUsed')).toEqual([]);
    const blocked = truck({ members: truck().members.map((member) => ({ ...member, bump: 0 })) });
    expect(only(runOf({ fill: { motion: 0.01 } }, blocked), 'memberBumpUsed', 'rear beam').value).toBeNull();
  });
});

describe('chassis', () => {
  it('gives the peaks of pitch and heave acceleration both ways', () => {
    const wave = (amplitude: number) => (_: number, __: number, frame: number) =>
      [0, amplitude, -2 * amplitude][frame] ?? 0;
    const run = runOf({ frames: 3, fill: { pitch: wave(0.1), heaveAcceleration: wave(3) } });
    expect(only(run, 'pitchUp')).toMatchObject({ value: 0.1, unit: 'rad', moment: { frame: 1 } });
    expect(only(run, 'pitchDown')).toMatchObject({ value: -0.2, moment: { frame: 2 } });
    expect(only(run, 'heaveAccelerationUp')).toMatchObject({ value: 3, unit: 'm/s²' });
    expect(only(run, 'heaveAccelerationDown').value).toBe(-6);
  });
});

describe('belly clearance', () => {
  const dip = {
    fill: { clearance: (_: number, __: number, frame: number) => (frame === 30 ? 0.004 : 0.05) },
  };
  it('is the least gap', () => {
    expect(only(runOf(dip), 'leastClearance')).toMatchObject({ value: 0.004, moment: { frame: 30 } });
  });
  it('is 0 where the body touched between two frames', () => {
    const events = [{ kind: 'body-touch', time: 0.3, station: 0.15 }] as const;
    expect(only(runOf({ ...dip, events }), 'leastClearance')).toMatchObject({
      value: 0,
      moment: { frame: 72, time: 0.3 },
    });
  });
  it('has no value without a belly line', () => {
    expect(only(runOf(dip, truck({ belly: { body: 0, points: [] } })), 'leastClearance').value).toBeNull();
  });
});

describe('grip, tyres, distance, time', () => {
  it('gives the greatest grip use, and 1 where an event says the limit was reached', () => {
    const fill = { gripUse: (_: number, wheel: number) => 0.2 + 0.1 * wheel };
    expect(only(runOf({ fill }), 'greatestGripUse')).toMatchObject({ of: 'rear' });
    expect(only(runOf({ fill }), 'wheelGripUse', 'rear').value).toBeCloseTo(0.4, 12);
    const events = [
      { kind: 'grip-limit', wheel: 'front', time: 0.5, station: 0.25, wheelStation: 0.45 },
    ] as const;
    expect(only(runOf({ fill, events }), 'greatestGripUse')).toMatchObject({
      value: 1,
      of: 'front',
      moment: { time: 0.5 },
    });
  });

  it('gives the greatest depth of each tyre', () => {
    const run = runOf({ fill: { depth: (_, wheel, frame) => (wheel === 0 && frame === 3 ? 0.006 : 0.002) } });
    expect(only(run, 'wheelTyreDepth', 'front')).toMatchObject({
      value: 0.006,
      unit: 'm',
      moment: { frame: 3 },
    });
  });

  it('gives the greatest station even when the vehicle rolls back, and the way from the start', () => {
    const run = runOf({
      frames: 5,
      fill: { station: (_, __, frame) => [0.1, 0.4, 0.9, 0.7, 0.5][frame] ?? 0 },
      end: { kind: 'time-up', time: 2.5, station: 0.45 },
    });
    expect(only(run, 'stationReached')).toMatchObject({ value: 0.9, moment: { frame: 2 } });
    expect(only(run, 'distance').value).toBeCloseTo(0.8, 12);
    expect(only(run, 'timeTaken')).toMatchObject({ value: 2.5, unit: 's' });
  });
});

describe('driving backwards', () => {
  it('is measured along the way too', () => {
    const backwards = truck({
      drive: { speed: -0.5, acceleration: 0.5, share: { kind: 'locked', branches: [] } },
    });
    const run = runOf(
      {
        frames: 3,
        fill: { station: (_, __, frame) => [2, 1.5, 1.6][frame] ?? 0 },
        end: { kind: 'time-up', time: 1, station: 1.6 },
      },
      backwards,
    );
    expect(only(run, 'stationReached')).toMatchObject({ value: 1.5, moment: { frame: 1 } });
    expect(only(run, 'distance').value).toBe(0.5);
  });
});

describe('energy audit residual', () => {
  it('is the greatest gap in work = stored + lost over the work done', () => {
    // Work 10 J at the end; at frame 4 stored + lost are 0.05 J short.
    const run = runOf({
      frames: 11,
      fill: {
        work: (_, __, frame) => frame,
        energy: (_, __, frame) => 0.5 * frame - (frame === 4 ? 0.05 : 0),
        lost: (_, __, frame) => 0.5 * frame,
      },
    });
    expect(only(run, 'energyResidual').value).toBeCloseTo(0.005, 12);
    expect(only(run, 'energyResidual').moment?.frame).toBe(4);
  });

  it('has no value for a parked vehicle', () => {
    expect(only(runOf({ fill: { work: 1e-9, energy: -1e-7 } }), 'energyResidual').value).toBeNull();
  });
});

describe('every measure', () => {
  it('says what it is, where it comes from and in what unit', () => {
    for (const measure of [...all(runOf()), ...standingMeasures(runOf().recording.standing)]) {
      expect(measure.name).toMatch(/^[a-z][A-Za-z]+$/);
      expect(measure.title.length, measure.name).toBeGreaterThan(3);
      expect(measure.says, measure.name).toMatch(/\.$/);
      expect(measure.source.length, measure.name).toBeGreaterThan(5);
      expect(measure.unit.length, measure.name).toBeGreaterThan(0);
    }
  });

  it('is one row per name and thing', () => {
    const keys = all(runOf()).map((m) => `${m.name} ${/^(wheel|member|bogie)/.test(m.name) ? m.of : ''}`);
    expect(new Set(keys).size).toBe(keys.length);
  });

  it('lives through a run of one frame', () => {
    const run = runOf({ frames: 1 });
    expect(only(run, 'wheelTimeOff', 'front').value).toBeNull();
    expect(only(run, 'wheelLeastLoad', 'front').value).toBe(20);
    expect(only(run, 'wheelDynamicLoadCoefficient', 'front').value).toBe(0);
  });
});
