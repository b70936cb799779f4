/*
 * A winch on a power take-off, and the steering of several lines by one servo.
 * Seen red: the reduction of the drive line left out of the way; the current of one motor for that of both; the second line
 * steered as far as the first.
 */
import { describe, expect, it } from 'vitest';
import { loadScenario } from '../../../sim/index.ts';
import { compile } from '../../../sim/mechanism/compile.ts';
import { studySteering } from '../../../sim/steering/study.ts';
import { winchLines } from '../../../sim/winch/ledger.ts';
import { studyWinch } from '../../../sim/winch/study.ts';
import { documentOf } from '../../rigs/vehicle.ts';
import { task, truck, winchEntry } from '../../rigs/winched.ts';

/** The truck with two motors on one gearbox that turns the rear wheels and the winch. */
function truckWith(vehicle: object) {
  const document = documentOf(truck);
  const { torquePerWheel: _, ...drive } = document.vehicle.drive;
  const read = loadScenario({
    ...document,
    vehicle: {
      ...document.vehicle,
      ...vehicle,
      drive: 'driveline' in vehicle ? drive : document.vehicle.drive,
    },
  });
  if (!read.ok) throw new Error(read.problems.map((p) => `${p.path} ${p.message}`).join('; '));
  return compile(read.value);
}

const driveline = {
  battery: { voltage: 24, currentLimit: 2000 },
  parts: [
    {
      name: 'motors',
      kind: 'motor',
      count: 2,
      stallTorque: 75,
      noLoadSpeed: 300,
      stallCurrent: 1000,
      noLoadCurrent: 20,
      voltage: 24,
    },
    { name: 'gearbox', kind: 'reduction', from: 'motors', ratio: 10, efficiency: 0.9, rating: 20e3 },
    {
      name: 'rear axle',
      kind: 'reduction',
      mesh: 'bevel',
      from: 'gearbox',
      ratio: 4,
      efficiency: 0.9,
      wheels: ['rear'],
    },
  ],
};
const { motor: _own, ...bare } = winchEntry;

describe('a winch on a power take-off', () => {
  const mechanism = truckWith({
    driveline,
    winches: [
      {
        ...bare,
        reduction: { ratio: 40, efficiency: 0.8, rating: 40e3 },
        from: 'gearbox',
        task: { slope: 0.3 },
      },
    ],
  });
  const winch = mechanism.winches?.[0];
  if (winch === undefined) throw new Error('no winch');
  const study = studyWinch(mechanism, winch);
  const use = (of: string) => study.uses.find((line) => line.of === of);

  it('asks the gearbox and both motors for their part, worked by hand', () => {
    const T = study.drumTorque;
    expect(T).toBeGreaterThan(1000);
    expect(use('gearbox')?.carries).toBeCloseTo(T / (40 * 0.8), 6);
    expect(use('motors')?.carries).toBeCloseTo(T / (40 * 0.8) / (10 * 0.9) / 2, 6);
    // the axle is not on the way
    expect(use('rear axle')).toBeUndefined();
    const each = T / (40 * 0.8) / (10 * 0.9) / 2;
    expect(study.current).toBeCloseTo(2 * (20 + (each / 75) * 980), 6);
    expect(use('battery')?.carries).toBeCloseTo(study.current ?? 0, 9);
  });

  it('has the same lines in a ledger, and none without a task', () => {
    expect(winchLines(mechanism)).toEqual(study.uses);
    expect(winchLines(truckWith({ winches: [winchEntry] }))).toEqual([]);
  });

  it('counts a haul without balance as unknown, never as held', () => {
    const tall = { ...winch, at: { x: 0.2, z: 12 } };
    const found = studyWinch(mechanism, tall, task({ slope: 1, rolling: 0.5 }));
    expect(found.kind).not.toBe('hauled');
    expect(found.pass).toBe(false);
    expect(found.uses.map((line) => line.use)).toEqual([null]);
  });
});

describe('one servo for two lines', () => {
  const line = { most: 0.5, offset: 0.05, width: 0.4 };
  const steered = (second: object) =>
    truckWith({
      steering: [
        {
          name: 'both',
          lines: [
            { wheel: 'front', ...line },
            { wheel: 'rear', ...line, ...second },
          ],
          efficiency: 1,
        },
      ],
    });
  const loads = [120e3, 120e3];
  const worst = (second: object) => {
    const mechanism = steered(second);
    const [steering] = mechanism.steering ?? [];
    if (steering === undefined) throw new Error('no steering');
    return studySteering(mechanism, steering, loads).worst.most;
  };

  it('needs twice as much for an equal second line, and less for one that turns less', () => {
    const one = worst({ most: 1e-9 });
    expect(worst({}) / one).toBeCloseTo(2, 6);
    expect(worst({ most: 0.25 }) / one).toBeCloseTo(1.5, 6);
  });
});
