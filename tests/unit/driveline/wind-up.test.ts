/*
 * Wind-up of axle lines that turn alike, against springs worked by hand, and what keeps it from happening.
 * Seen red: what slipped forgotten; grip taken without the drive torque; the gear between line and shaft left out.
 */
import { describe, expect, it } from 'vitest';
import { column, columnHeads, type Recording } from '../../../shared/recording.ts';
import { windUpOf } from '../../../sim/driveline/wind-up.ts';
import { namesOf } from '../../../sim/frames/frames.ts';
import type { Mechanism } from '../../../sim/mechanism/mechanism.ts';
import type { Loose } from '../small-truck.ts';
import { truckWith } from './document.ts';

const shafts = (more: Loose = {}): Loose => ({
  parts: [
    { name: 'motor', kind: 'motor', stallTorque: '5 N m', noLoadSpeed: '900 rpm' },
    { name: 'transfer', kind: 'differential', mode: 'locked', from: 'motor', ...more },
    { name: 'front shaft', kind: 'shaft', from: 'transfer', stiffness: '2 N m/rad', rating: '0.5 N m' },
    { name: 'rear shaft', kind: 'shaft', from: 'transfer', stiffness: '4 N m/rad' },
    {
      name: 'front final',
      kind: 'reduction',
      mesh: 'bevel',
      from: 'front shaft',
      ratio: 3,
      wheels: ['front'],
    },
    { name: 'rear final', kind: 'reduction', mesh: 'bevel', from: 'rear shaft', ratio: 3, wheels: ['rear'] },
  ],
});

/** A recording in which everything stands as drawn, and wheels roll by these angles; loads of 10 N. */
function rolled(
  mechanism: Mechanism,
  rolls: Readonly<Record<string, readonly number[]>>,
  normal = 1000,
): Recording {
  const frames = Object.values(rolls)[0]?.length ?? 0;
  const names = namesOf(mechanism);
  const columns = columnHeads(names, false);
  const block = new Float64Array(columns.length * frames);
  const recording = { ...names, mode: 'crawl', frames, columns, block } as unknown as Recording;
  mechanism.wheels.forEach(({ name }, w) => {
    column(recording, 'roll', w).set(rolls[name] ?? new Array(frames).fill(0));
    column(recording, 'normal', w).fill(normal);
  });
  return recording;
}

/** Stiff tyres along the ground, and a grip that nothing reaches, so that only shafts twist. */
const rigid = (mechanism: Mechanism, grip = 100): Mechanism => ({
  ...mechanism,
  wheels: mechanism.wheels.map((wheel) => ({
    ...wheel,
    tyre: { ...wheel.tyre, shearStiffness: 1e12, grip },
  })),
});

const truck = (driveline: Loose) => {
  const truck = truckWith(driveline, (t) => {
    t.vehicle.drive.driven = ['front', 'rear'];
  });
  return rigid(truck);
};

it('twists both shafts until they carry the same: Δφ over the sum of their softness', () => {
  const mechanism = truck(shafts());
  // the front wheels go 0.1 rad less far than the rear ones: 0.3 rad at the shafts, ½ + ¼ rad/(N·m) together
  const [group] = windUpOf(mechanism, rolled(mechanism, { front: [0, 0.1], rear: [0, 0.2] }));
  const torque = 0.3 / (1 / 2 + 1 / 4);
  expect(group?.parts.find(({ of }) => of === 'front shaft')?.torque).toBeCloseTo(torque, 6);
  expect(group?.parts.find(({ of }) => of === 'front shaft')?.use).toBeCloseTo(torque / 0.5, 6);
  expect(group?.lines.map(({ torque: each }) => each)).toEqual([
    expect.closeTo(3 * torque, 6),
    expect.closeTo(3 * torque, 6),
  ]);
  expect(group?.lines[0]).toMatchObject({ slips: false, moment: { frame: 1 } });
});

it('goes no further than grip holds, and what slipped stays away', () => {
  const mechanism = rigid(truck(shafts()), 0.5);
  // 0.5 · 2 N on wheels of 50 mm hold 0.05 N·m, 0.0167 at the shafts; then the wheels stand firm again
  const recording = rolled(mechanism, { front: [0, 0.1, 0.1], rear: [0, 0.2, 0.2] }, 2);
  for (const [w] of mechanism.wheels.entries()) column(recording, 'normal', w)[2] = 1000;
  const [group] = windUpOf(mechanism, recording);
  expect(Math.max(...(group?.lines.map(({ torque }) => torque) ?? []))).toBeCloseTo(0.05, 9);
  expect(group?.lines.some(({ slips }) => slips)).toBe(true);
});

it('leaves the wheel that drives less grip for it', () => {
  const mechanism = rigid(truck(shafts()), 0.5);
  const recording = rolled(mechanism, { front: [0, 0.1], rear: [0, 0.2] }, 2);
  // wind-up pushes the front wheels forward, and 0.03 of the 0.05 N·m that they hold drive already
  column(recording, 'torque', 0)[1] = 0.03;
  const [group] = windUpOf(mechanism, recording);
  expect(group?.lines[0]?.torque).toBeCloseTo(0.02, 9);
});

it('has nothing where all go the same way', () => {
  const mechanism = truck(shafts());
  const [group] = windUpOf(mechanism, rolled(mechanism, { front: [0, 0.3], rear: [0, 0.3] }));
  expect(group?.lines.map(({ torque }) => torque)).toEqual([0, 0]);
});

describe('does not come up', () => {
  it('behind an open differential', () => {
    const mechanism = truck(shafts({ mode: 'open' }));
    expect(windUpOf(mechanism, rolled(mechanism, { front: [0, 0.1], rear: [0, 0.2] }))).toEqual([]);
  });
  it('behind a freewheel', () => {
    const driveline = shafts();
    driveline.parts.push({ name: 'free', kind: 'freewheel', from: 'transfer' });
    driveline.parts[2].from = 'free';
    const mechanism = truck(driveline);
    expect(windUpOf(mechanism, rolled(mechanism, { front: [0, 0.1], rear: [0, 0.2] }))).toEqual([]);
  });
});
