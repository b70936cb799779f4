import { describe, expect, it } from 'vitest';
import { appraise, standReport, vehicleFigures } from '../../../sim/report/appraise.ts';
import { criterionNameProblems } from '../../../sim/report/names.ts';
import { bodyOf, hop, recordingOf, truck } from './fixture.ts';

const asked = (criteria: readonly { readonly kind: string }[] = []) => ({
  title: 'Over a step',
  vehicle: { name: 'Invented 6×6' },
  criteria,
});

describe('appraise', () => {
  it('gives the words, the figures of the vehicle and of each axle line', () => {
    const mechanism = truck();
    const recording = recordingOf(mechanism, {
      frames: 241,
      fill: { load: (_, wheel, frame) => (wheel === 2 && frame === 10 ? 31 : 20) },
      events: hop('middle', 0.5, 0.1),
      standing: { loads: [18, 20, 24], travels: [0.001, 0.002, 0.003] },
    });
    const report = appraise(asked(), mechanism, recording);
    expect(report).toMatchObject({
      mode: 'drive',
      title: 'Over a step',
      vehicle: 'Invented 6×6',
      mass: 6,
      substep: 0.0005,
      pass: true,
    });
    expect(report.end).toEqual({ kind: 'arrived', time: 1, station: 0.5 });
    expect(report.events).toBe(recording.events);
    const [front, middle, rear] = report.wheels;
    expect(front).toEqual({
      id: 'front',
      axle: 1,
      count: 2,
      load: 18,
      loadPerWheel: 9,
      travel: 0.001,
      leastLoad: 20,
      greatestLoad: 20,
      timeOff: 0,
    });
    expect(middle).toMatchObject({ leastLoad: 0, greatestLoad: 20 });
    expect(middle?.timeOff).toBeCloseTo(0.1, 12);
    expect(rear).toMatchObject({ loadPerWheel: 12, greatestLoad: 31 });
  });

  it('numbers verdicts as the scenario does, and passes only when all of them do', () => {
    const mechanism = truck();
    const criteria = [
      { kind: 'reaches' },
      { kind: 'time-off-ground', longest: 0.05 },
      { kind: 'no-stop-hit' },
    ];
    const good = appraise(asked(criteria), mechanism, recordingOf(mechanism));
    expect(good.verdicts.map((v) => [v.index, v.kind, v.pass])).toEqual([
      [0, 'reaches', true],
      [1, 'time-off-ground', true],
      [2, 'no-stop-hit', true],
    ]);
    expect(good.pass).toBe(true);
    const bad = appraise(
      asked(criteria),
      mechanism,
      recordingOf(mechanism, { events: hop('rear', 0.2, 0.06) }),
    );
    expect(bad.verdicts.map((v) => v.pass)).toEqual([true, false, true]);
    expect(bad.pass).toBe(false);
  });

  it('can fail every criterion at once', () => {
    const mechanism = truck();
    const criteria = [
      { kind: 'wheel-load', least: 0.2 },
      { kind: 'time-off-ground', longest: 0 },
      { kind: 'no-stop-hit' },
      { kind: 'reaches' },
      { kind: 'belly-clearance', least: 0.06 },
      { kind: 'pitch', up: 0.1 },
      { kind: 'grip-use', most: 0.5 },
      { kind: 'load-spread', most: 0.1 },
      { kind: 'travel-used', most: 0.5 },
      { kind: 'time', most: 0.1 },
    ];
    const recording = recordingOf(mechanism, {
      fill: { pitch: 0.2, gripUse: 0.6, motion: 0.019, load: (_, wheel) => [20, 25, 15][wheel] ?? 0 },
      events: [
        ...hop('front', 0.2, 0.05),
        { kind: 'stop-hit', member: 'rear beam', side: 'bump', time: 0.3, station: 0.15 },
      ],
      end: { kind: 'stuck', time: 0.995, station: 0.49, cause: 'no progress at full torque' },
    });
    const report = appraise(asked(criteria), mechanism, recording);
    expect(report.verdicts.filter((v) => v.pass).map((v) => v.kind)).toEqual([]);
    expect(report.verdicts).toHaveLength(10);
    for (const verdict of report.verdicts) expect(verdict.says).toContain('stuck');
  });

  it('asks nothing with no criteria, yet does not pass a run that broke off', () => {
    const mechanism = truck();
    expect(appraise(asked(), mechanism, recordingOf(mechanism))).toMatchObject({ verdicts: [], pass: true });
    const ends = [
      { kind: 'time-up', time: 1, station: 0.5 },
      { kind: 'tipped', time: 1, station: 0.5 },
      { kind: 'stuck', time: 1, station: 0.5, cause: 'no grip' },
      {
        kind: 'diverged',
        time: 1,
        station: 0.5,
        quantity: 'speed',
        body: 'chassis',
        cause: 'substep too long',
      },
    ] as const;
    expect(ends.map((end) => appraise(asked(), mechanism, recordingOf(mechanism, { end })).pass)).toEqual([
      true,
      false,
      false,
      false,
    ]);
  });

  it('hands problems on, and an error among them fails the report', () => {
    const mechanism = truck();
    const warning = { path: 'vehicle', message: 'is odd', severity: 'warning' } as const;
    expect(appraise(asked(), mechanism, recordingOf(mechanism), [warning])).toMatchObject({
      problems: [warning],
      pass: true,
    });
    expect(
      appraise(asked(), mechanism, recordingOf(mechanism), [{ ...warning, severity: 'error' }]).pass,
    ).toBe(false);
  });

  it('refuses a criterion that nobody registered', () => {
    const mechanism = truck();
    expect(() => appraise(asked([{ kind: 'looks-good' }]), mechanism, recordingOf(mechanism))).toThrow(
      "criteria[0]: there is no criterion of kind 'looks-good'",
    );
  });
});

describe('vehicle figures', () => {
  it('move all inertias to the common centre of gravity', () => {
    // 4 kg at the left and 2 kg 3 m to the right: centre 1 m right of the first; 0.5 + 4·1² + 0.25 + 2·2².
    const bodies = [
      bodyOf('chassis', -1, { mass: 4, centre: { x: 0, z: 1 }, inertia: 0.5 }),
      bodyOf('axle', 0, { mass: 2, centre: { x: 3, z: 1 }, inertia: 0.25 }),
    ];
    expect(vehicleFigures(truck({ bodies, cg: { x: 1, z: 1 } })).pitchInertia).toBeCloseTo(12.75, 12);
  });
});

describe('standReport', () => {
  it('gives standing loads and figures, and judges nothing', () => {
    const mechanism = truck();
    const { standing } = recordingOf(mechanism, {
      standing: { loads: [18, 20, 24], pitch: 0.02, stored: 0.3 },
    });
    const report = standReport(asked([{ kind: 'reaches' }]), mechanism, standing);
    expect(report).toMatchObject({ mode: 'stand', verdicts: [], events: [], pass: true });
    expect(report.wheels[2]).toEqual({
      id: 'rear',
      axle: 3,
      count: 2,
      load: 24,
      loadPerWheel: 12,
      travel: 0,
    });
    expect(report.measures.map((m) => [m.name, m.value])).toEqual([
      ['standingPitch', 0.02],
      ['standingEnergy', 0.3],
      ['standingResidual', 1e-12],
    ]);
    expect(report).not.toHaveProperty('end');
  });
});

describe('names in criteria', () => {
  it('are problems when the vehicle does not have them', () => {
    const criteria = [
      { kind: 'wheel-load', least: 0.2, wheels: ['front', 'back'] },
      { kind: 'reaches' },
      { kind: 'no-stop-hit', members: ['rear arm'] },
    ];
    expect(criterionNameProblems(criteria, truck())).toEqual([
      {
        path: 'criteria[0].wheels',
        message: "the vehicle has no wheel called 'back'",
        hint: 'its wheels are front, middle and rear',
        severity: 'error',
      },
      {
        path: 'criteria[2].members',
        message: "the vehicle has no member called 'rear arm'",
        hint: 'its members are front axle and rear beam',
        severity: 'error',
      },
    ]);
  });
});
