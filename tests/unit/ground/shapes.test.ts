import { describe, expect, it } from 'vitest';
import type { Vec2 } from '../../../shared/geometry/vec.ts';
import { bumps } from '../../../sim/ground/bumps.ts';
import { cosineBump } from '../../../sim/ground/cosine-bump.ts';
import { flat } from '../../../sim/ground/flat.ts';
import { logs } from '../../../sim/ground/logs.ts';
import { ramp } from '../../../sim/ground/ramp.ts';
import { step } from '../../../sim/ground/step.ts';
import { table } from '../../../sim/ground/table.ts';
import { trench } from '../../../sim/ground/trench.ts';
import { vDitch } from '../../../sim/ground/v-ditch.ts';
import { washboard } from '../../../sim/ground/washboard.ts';
import { inMm, shapeOf, told } from './kinds.ts';

const mm = (kind: unknown, written: unknown) => inMm(shapeOf(kind, written).points);

describe('straight shapes', () => {
  it('flat ground is one line', () => {
    expect(mm(flat, { length: '1 m' })).toEqual([
      [0, 0],
      [1000, 0],
    ]);
  });

  it('a step goes up its face and on at its height', () => {
    expect(mm(step, { height: '30 mm', length: '1 m' })).toEqual([
      [0, 0],
      [0, 30],
      [1000, 30],
    ]);
  });

  it('a step of negative height goes down', () => {
    expect(mm(step, { height: '-30 mm', length: '1 m' })).toEqual([
      [0, 0],
      [0, -30],
      [1000, -30],
    ]);
  });

  it('a ramp of 45 degrees rises by its length', () => {
    expect(mm(ramp, { length: '200 mm', angle: '45 deg' })).toEqual([
      [0, 0],
      [200, 200],
    ]);
  });

  it('a ramp may fall, and may be a vertical face', () => {
    expect(mm(ramp, { length: '200 mm', height: '-50 mm' })).toEqual([
      [0, 0],
      [200, -50],
    ]);
    expect(mm(ramp, { length: 0, height: '50 mm' })).toEqual([
      [0, 0],
      [0, 50],
    ]);
  });

  it('a ramp wants either a height or an angle, and a length to rise over', () => {
    expect(told(ramp, { length: 1 })).toEqual(['has neither a height nor an angle (give one of them)']);
    expect(told(ramp, { length: 1, height: 1, angle: 0.1 })[0]).toMatch(/^angle: stands beside a height/);
    expect(told(ramp, { length: 0, angle: 0.1 })[0]).toMatch(/^length: is 0 m/);
  });

  it('a trench has vertical walls and comes back up', () => {
    expect(mm(trench, { width: '70 mm', depth: '60 mm' })).toEqual([
      [0, 0],
      [0, -60],
      [70, -60],
      [70, 0],
    ]);
  });

  it('a V-ditch is deepest halfway', () => {
    expect(mm(vDitch, { width: '400 mm', depth: '90 mm' })).toEqual([
      [0, 0],
      [200, -90],
      [400, 0],
    ]);
  });
});

describe('a table of points', () => {
  it('is moved so that it starts where the piece begins', () => {
    const points = [
      { station: '1 m', height: '10 mm' },
      { station: '1.2 m', height: '25 mm' },
      { station: '1.2 m', height: 0 },
    ];
    expect(mm(table, { points })).toEqual([
      [0, 0],
      [200, 15],
      [200, -10],
    ]);
  });

  it('reports every station that goes back', () => {
    const points = [0, 1, 0.5, 2, 1.9].map((station) => ({ station, height: 0 }));
    expect(told(table, { points })).toEqual([
      'points[2].station: goes back from 1 m to 500 mm (put the points in order of their stations)',
      'points[4].station: goes back from 2 m to 1.9 m (put the points in order of their stations)',
    ]);
  });
});

/** How far the chords of a path lie inside a circle: largest and smallest distance of points and of chord middles, m. */
function againstCircle(points: readonly Vec2[], centre: Vec2) {
  const from = (p: Vec2) => Math.hypot(p.x - centre.x, p.z - centre.z);
  const middles = points
    .slice(1)
    .map((p, i) => ({ x: (p.x + (points[i]?.x ?? 0)) / 2, z: (p.z + (points[i]?.z ?? 0)) / 2 }));
  return { points: points.map(from), middles: middles.map(from) };
}

describe('round bumps', () => {
  it('a half-round one lies on its circle, chords at most 0.1 % of the radius inside', () => {
    const { points, problems } = shapeOf(bumps, { count: 1, radius: '20 mm' });
    expect(problems).toEqual([]);
    const { points: on, middles } = againstCircle(points, { x: 0.02, z: 0 });
    // 1e-14 m: a few roundings of 20 mm.
    for (const r of on) expect(Math.abs(r - 0.02)).toBeLessThan(1e-14);
    // The two feet are laid twice, on the circle and on the level: those chords have no length and no sagitta.
    for (const r of middles) expect(r).toBeGreaterThanOrEqual(0.02 * 0.999);
    expect(Math.max(...points.map((p) => p.z))).toBe(0.02);
    expect(points.length).toBeLessThan(45);
  });

  it('a flatter one has the given height and base, and the radius of that chord', () => {
    const { points } = shapeOf(bumps, { count: 1, height: '10 mm', base: '60 mm' });
    const radius = (0.06 ** 2 / 4 + 0.01 ** 2) / 0.02;
    expect(radius).toBeCloseTo(0.05, 12);
    for (const r of againstCircle(points, { x: 0.03, z: 0.01 - radius }).points)
      expect(Math.abs(r - radius)).toBeLessThan(1e-14);
    expect(Math.max(...points.map((p) => p.z))).toBeCloseTo(0.01, 15);
    expect(points.at(-1)?.x).toBeCloseTo(0.06, 15);
  });

  it('a row has its crests at the spacing, level ground between, and ends at the foot of the last', () => {
    const { points } = shapeOf(bumps, { count: 3, radius: '20 mm', spacing: '100 mm' });
    const crests = points.filter((p) => p.z === 0.02).map((p) => Math.round(p.x * 1e6) / 1e3);
    expect(crests).toEqual([20, 120, 220]);
    expect(points.at(-1)).toEqual({ x: expect.closeTo(0.24, 14), z: 0 });
  });

  it('a staggered row has every bump at half its height, on its full base: the mean of the two tracks', () => {
    const straight = shapeOf(bumps, { count: 3, radius: '20 mm', spacing: '100 mm' }).points;
    const staggered = shapeOf(bumps, { count: 3, radius: '20 mm', spacing: '100 mm', stagger: true }).points;
    expect(staggered).toEqual(straight.map((p) => ({ x: p.x, z: p.z / 2 })));
  });

  it('may touch each other but not overlap', () => {
    expect(told(bumps, { count: 4, radius: '20 mm', spacing: '40 mm' })).toEqual([]);
    expect(told(bumps, { count: 4, radius: '20 mm', spacing: '39 mm' })[0]).toMatch(
      /^spacing: is 39 mm, less than the length of one \(40 mm\)/,
    );
  });

  it('say what is missing or said twice', () => {
    expect(told(bumps, { count: 1 })[0]).toMatch(/^has no size/);
    expect(told(bumps, { count: 1, height: 0.01 })[0]).toMatch(/^has no size/);
    expect(told(bumps, { count: 2, radius: 0.01 })[0]).toMatch(/^spacing: is missing/);
    expect(told(bumps, { count: 1, radius: 0.01, base: 1 })[0]).toMatch(/^base: stands beside a radius/);
    expect(told(bumps, { count: 1, height: 0.03, base: 0.05 })[0]).toMatch(
      /^height: is 30 mm, more than half the base/,
    );
  });

  it('refuse a row of more points than a ground may have, before making it', () => {
    expect(told(bumps, { count: 100_000, radius: 0.01, spacing: 0.1 })[0]).toMatch(
      /^count: makes a ground of .* at most 200,000/,
    );
  });
});

describe('logs', () => {
  it('sunk by half are half-round bumps', () => {
    const log = shapeOf(logs, { diameter: '40 mm' }).points;
    expect(log).toEqual(shapeOf(bumps, { count: 1, radius: '20 mm' }).points);
  });

  it('on the ground stand a full diameter high, with vertical sides under the widest line', () => {
    const path = mm(logs, { diameter: '40 mm', sunk: 0 });
    expect(path.slice(0, 2)).toEqual([
      [0, 0],
      [0, 20],
    ]);
    expect(Math.max(...path.map(([, z]) => z))).toBe(40);
    expect(path.slice(-2)).toEqual([
      [40, 20],
      [40, 0],
    ]);
  });

  it('sunk deeper show the arc that is left: height d·(1 − sunk), base 2·√(h·(d − h))', () => {
    const path = mm(logs, { diameter: '40 mm', sunk: '80 %' });
    expect(Math.max(...path.map(([, z]) => z))).toBeCloseTo(8, 9);
    expect(path.at(-1)?.[0]).toBeCloseTo(2 * Math.sqrt(8 * 32), 5);
  });

  it('lie side by side without a slot between them', () => {
    const { points, problems } = shapeOf(logs, { diameter: '40 mm', count: 3, spacing: '40 mm', sunk: 0 });
    expect(problems).toEqual([]);
    expect(points.slice(1, -1).every((p) => p.z >= 0.02 - 1e-12)).toBe(true);
  });
});

describe('waves', () => {
  it('a cosine bump begins and ends at 0 and is highest halfway', () => {
    const path = mm(cosineBump, { length: '400 mm', height: '20 mm' });
    expect(path[0]).toEqual([0, 0]);
    expect(path[(path.length - 1) / 2]).toEqual([200, 20]);
    expect(path.at(-1)).toEqual([400, 0]);
  });

  it('a negative height makes a dip', () => {
    expect(Math.min(...mm(cosineBump, { length: '400 mm', height: '-20 mm' }).map(([, z]) => z))).toBe(-20);
  });

  it.each([
    [
      'cosine bump',
      cosineBump,
      { length: 1, height: 0.05 },
      (x: number) => 0.025 * (1 - Math.cos(2 * Math.PI * x)),
    ],
    [
      'washboard',
      washboard,
      { wavelength: 1, height: 0.05, count: 3 },
      (x: number) => 0.025 * Math.sin(2 * Math.PI * x),
    ],
  ])('the chords of a %s miss the curve by under 0.1 % of its height', (_name, kind, written, curve) => {
    const { points } = shapeOf(kind, written);
    points.slice(1).forEach((b, i) => {
      const a = points[i] ?? b;
      for (const share of [0.25, 0.5, 0.75]) {
        const x = a.x + share * (b.x - a.x);
        const z = a.z + share * (b.z - a.z);
        expect(Math.abs(z - curve(x))).toBeLessThan(0.001 * 0.05);
      }
    });
  });

  it('a washboard makes its waves about the level it begins on', () => {
    const { points } = shapeOf(washboard, { wavelength: '120 mm', height: '10 mm', count: 8 });
    expect(points.at(-1)?.x).toBeCloseTo(0.96, 12);
    expect(points.filter((p) => Math.abs(p.z - 0.005) < 1e-12)).toHaveLength(8);
    expect(points.filter((p) => Math.abs(p.z + 0.005) < 1e-12)).toHaveLength(8);
  });

  it('too many waves are refused before they are made', () => {
    expect(told(washboard, { wavelength: 1, height: 0.1, count: 5000 })[0]).toMatch(
      /^count: makes a ground of 260,001 points/,
    );
  });
});
