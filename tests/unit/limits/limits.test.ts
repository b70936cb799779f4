/*
 * What limits say of whole vehicles: causes, remarks, reverse, curves, and vehicles that cannot move.
 *
 * Seen red: a crawl that hops over a lack of grip; the ground of a vehicle in reverse not turned round; stops asked of no
 * member; a curve that forgets to set the grip; wheels made heavier with the load.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { compile, loadScenario, type Scenario } from '../../../sim/index.ts';
import { cross, crossLevel } from '../../../sim/limits/cross.ts';
import { gripCurve, massCurve } from '../../../sim/limits/curves.ts';
import { type Fineness, limitOf } from '../../../sim/limits/limit.ts';
import { limitsOf } from '../../../sim/limits/limits.ts';
import { obstacleKinds } from '../../../sim/limits/registry.ts';
import { stepDown } from '../../../sim/limits/step-down.ts';
import { stepUp } from '../../../sim/limits/step-up.ts';
import { trench } from '../../../sim/limits/trench.ts';
import { withGrip, withItems } from '../../../sim/limits/vary.ts';
import type { Mechanism } from '../../../sim/mechanism/mechanism.ts';
import { type Loose, smallTruck } from '../small-truck.ts';

const quick: Fineness = { tolerance: 5e-3, scan: 24 };
const forward = { sense: 1, noStops: [] } as const;

function scenarioFrom(document: Loose): Scenario {
  const read = loadScenario(document);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.value;
}

/** The small truck, changed. */
const small = (change: (document: Loose) => void = () => {}): Scenario => {
  const document = smallTruck();
  change(document);
  return scenarioFrom(document);
};

const shipped = (name: string): Scenario =>
  scenarioFrom(JSON.parse(readFileSync(new URL(`../../../scenarios/${name}.json`, import.meta.url), 'utf8')));

/** With as much torque as grip can ask for. */
const strong = (mechanism: Mechanism): Mechanism => ({
  ...mechanism,
  wheels: mechanism.wheels.map((w) => ({ ...w, torqueLimit: 1e9 })),
});

describe('limits of a truck', () => {
  const scenario = small((document) => {
    document.vehicle.drive.speed = '-0.2 m/s';
    document.ground = [
      { kind: 'step', height: '-20 mm', length: '1 m' },
      { kind: 'trench', width: '30 mm', depth: '20 mm' },
      { kind: 'bumps', count: 1, radius: '15 mm', stagger: true },
      { kind: 'bumps', count: 1, radius: '30 mm' },
      { kind: 'ramp', length: '1 m', angle: '10 deg' },
      { kind: 'ramp', length: '1 m', height: '100 mm' },
      { kind: 'ramp', length: 0, height: '7 mm' },
    ];
  });

  it('know each obstacle of the ground, seen in the direction of travel', () => {
    const { found, sense, level } = limitsOf(scenario, compile(scenario));
    expect({ sense, level }).toEqual({ sense: -1, level: undefined });
    const today = Object.fromEntries(found.map((f) => [f.obstacle.kind, f.today]));
    expect(today).toEqual({
      'step-up': 0.02,
      'step-down': 0.007,
      trench: 0.03,
      'grade-up': undefined,
      'grade-down': (10 * Math.PI) / 180,
      'staggered-log': 0.015,
    });
    for (const { size, most, halt } of found) {
      expect(size).toBeGreaterThan(0);
      expect(halt === undefined ? size : most).toBe(most);
    }
  });

  it('are those of the largest obstacle that crosses, and the next larger one does not', () => {
    const mechanism = compile(small());
    for (const obstacle of obstacleKinds) {
      const { size, halt } = limitOf(mechanism, obstacle, forward, quick);
      const rules = { ...forward, perRadius: quick.scan };
      expect(cross(mechanism, obstacle, size, rules).crosses, obstacle.kind).toBe(true);
      expect(halt, obstacle.kind).toBeDefined();
      expect(cross(mechanism, obstacle, 1.01 * size, rules).crosses, obstacle.kind).toBe(false);
    }
  });

  it('count a stop met as a remark, and as a failure where criteria ask for none', () => {
    const free = shipped('corrie-6x6');
    const mechanism = strong(withGrip(compile(free), 0.8));
    const remarked = limitOf(mechanism, stepUp, forward, quick);
    expect(remarked.remarks).toContain('middle-arm meets its bump stop');
    const asked = limitsOf(free, mechanism, { obstacles: [stepUp] }).found[0];
    expect(asked?.halt).toMatchObject({ by: 'stop', says: 'middle-arm meets its bump stop' });
    expect(asked?.size).toBeLessThan(0.9 * remarked.size);
  });

  it('do not depend on how finely the crossing is looked at, nor on hopping where wheels slip', () => {
    const fell = strong(withGrip(compile(shipped('fell-4x4')), 0.4));
    const own: Mechanism = {
      ...fell,
      drive: {
        ...fell.drive,
        share: {
          kind: 'open',
          branches: [
            { kind: 'wheel', wheel: 0 },
            { kind: 'wheel', wheel: 1 },
          ],
        },
      },
    };
    for (const vehicle of [fell, own]) {
      const [coarse, fine] = [12, 96].map((scan) =>
        limitOf(vehicle, stepUp, forward, { tolerance: 1e-3, scan }),
      );
      // peaks of the need for grip are sampled to a thousandth of it
      expect(Math.abs((coarse?.size ?? 0) / (fine?.size ?? 1) - 1)).toBeLessThan(0.005);
      expect(fine?.halt?.by).toBe('grip');
    }
  });

  it('going down forward are those of climbing up in reverse, without losses', () => {
    const fell = strong(withGrip(compile(shipped('fell-4x4')), 0.4));
    const lossless: Mechanism = {
      ...fell,
      wheels: fell.wheels.map((w) => ({ ...w, tyre: { ...w.tyre, rolling: 0 } })),
    };
    const down = limitOf(lossless, stepDown, forward, quick);
    const up = limitOf(lossless, stepUp, { sense: -1, noStops: [] }, quick);
    // statics knows no direction; both are found to 0.5 %
    expect(Math.abs(down.size / up.size - 1)).toBeLessThan(0.01);
  });
});

describe('curves', () => {
  const mechanism = compile(shipped('corrie-6x6'));

  it('over grip rise while grip is the limit, and are level where it is not', () => {
    const points = gripCurve(mechanism, stepUp, forward, [0.2, 0.4, 0.6, 0.9, 1.2]);
    expect(points.map(({ at }) => at)).toEqual([0.2, 0.4, 0.6, 0.9, 1.2]);
    points.slice(1).forEach(({ size, by }, i) => {
      if (by === 'grip') expect(size).toBeGreaterThan(1.05 * (points[i]?.size ?? 0));
    });
    const [first, last, before] = [points[0], points.at(-1), points.at(-2)];
    expect(first?.by).toBe('grip');
    expect(last?.by).toBe('torque');
    expect(last?.size).toBeCloseTo(before?.size ?? 0, 3);
  });

  it('over mass are at the mass of the vehicle with that load, and fall where torque is the limit', () => {
    const points = massCurve(mechanism, stepUp, forward, [1, 2]);
    const wheels = mechanism.wheels.reduce((sum, w) => sum + w.mass, 0);
    expect(points[0]?.at).toBeCloseTo(mechanism.mass, 9);
    expect(points[1]?.at).toBeCloseTo(2 * (mechanism.mass - wheels) + wheels, 9);
    expect(points[1]?.by).toBe('torque');
    expect(points[1]?.size).toBeLessThan(0.8 * (points[0]?.size ?? 0));
  });
});

describe('a vehicle with other mass items', () => {
  it('has the bodies that a document with those masses compiles to', () => {
    const heavy = small((document) => {
      for (const item of document.vehicle.masses)
        item.mass = `${2 * Number.parseFloat(item.mass)} ${item.mass.split(' ')[1]}`;
      document.vehicle.masses[0].inertia = '0.04 kg m^2';
    });
    const [expected, got] = [compile(heavy), withItems(compile(small()), 2)];
    expect(got.mass).toBeCloseTo(expected.mass, 9);
    expect(got.cg.x).toBeCloseTo(expected.cg.x, 9);
    expect(got.cg.z).toBeCloseTo(expected.cg.z, 9);
    got.bodies.forEach((body, i) => {
      expect(body.mass).toBeCloseTo(expected.bodies[i]?.mass ?? 0, 9);
      expect(body.centre.z).toBeCloseTo(expected.bodies[i]?.centre.z ?? 0, 9);
    });
    // point masses have an inertia that the compiler makes up; the chassis' own is in the document
    expect(got.bodies[0]?.inertia).toBeCloseTo(expected.bodies[0]?.inertia ?? 0, 9);
  });

  it('keeps its tyres, springs and stops', () => {
    const before = compile(small());
    const after = withItems(before, 3);
    expect(after.wheels).toBe(before.wheels);
    expect(after.elements).toBe(before.elements);
  });
});

describe('vehicles that cannot', () => {
  it('have no grip at all cross nothing, however small', () => {
    const { found, level } = limitsOf(small(), compile(small()), { grip: 0 });
    expect(level).toBeUndefined();
    for (const { size, halt } of found.filter(({ obstacle }) => obstacle.kind !== 'staggered-log')) {
      expect(size).toBeLessThan(1e-3);
      expect(halt?.by).toBe('grip');
    }
  });

  it('have no drive do not even cross level ground, and are told so', () => {
    const scenario = small((document) => {
      document.vehicle.drive.torquePerWheel = 0;
    });
    const { level, found } = limitsOf(scenario, compile(scenario));
    expect(level?.by).toBe('torque');
    expect(level?.says).toMatch(/needs [\d.]+ N·m and has 0/);
    expect(found.map(({ size }) => size)).toEqual(obstacleKinds.map(() => 0));
  });

  it('stand with their centre of gravity outside their wheels are told that', () => {
    const mechanism = compile(small());
    // two wheels in a row under a chassis whose weight hangs 100 mm before them
    const heavy = {
      ...mechanism,
      bodies: mechanism.bodies.map((b, i) => (i === 0 ? { ...b, centre: { x: 0.15, z: 0.09 } } : b)),
    };
    expect(crossLevel(heavy, { ...forward, perRadius: 24 }).halt).toMatchObject({ by: 'stand' });
  });

  it('meet a trench wider than their wheelbase are stopped by it', () => {
    const crossed = cross(compile(small()), trench, 0.7, { ...forward, perRadius: 24 });
    expect(crossed.crosses).toBe(false);
    expect(crossed.halt?.by).toMatch(/tipping|grip|balance|belly/);
  });
});
