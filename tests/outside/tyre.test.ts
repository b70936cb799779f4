/*
 * The tyre as a bed of radial springs: its closed forms against rays, finite differences and quadrature.
 *
 * Seen red: the boundary term at a silhouette left out, and with its sign turned round; one term of the energy 1 % off;
 * segments seen from behind let in; a patch for every segment; the arm of friction 1 % off.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Ground } from '../../sim/ground/ground.ts';
import { heightAt } from '../../sim/ground/query.ts';
import { foundationOf } from '../../sim/mechanism/tyres.ts';
import { distanceToGround, findTouch, makeTouch } from '../../sim/tyre/touch.ts';
import { groundOf } from '../rigs/vehicle.ts';

const radius = 0.055;
const touch = makeTouch();
const points = (...p: [number, number][]) =>
  groundOf([{ kind: 'table', points: p.map(([station, height]) => ({ station, height })) }]);

/** Ground about station 0.5 with everything that a rim can meet. */
const grounds: Record<string, Ground> = {
  'level ground': points([0, 0], [1, 0]),
  'a step up': points([0, 0], [0.5, 0], [0.5, 0.03], [1, 0.03]),
  'a step up higher than the hub': points([0, 0], [0.5, 0], [0.5, 0.06], [1, 0.06]),
  'a step down': points([0, 0], [0.5, 0], [0.5, -0.03], [1, -0.03]),
  'a low step down': points([0, 0], [0.5, 0], [0.5, -0.003], [1, -0.003]),
  'a sharp ridge': points([0, 0], [0.47, 0], [0.5, 0.03], [0.53, 0], [1, 0]),
  'a valley': points([0, 0], [0.3, 0], [0.5, -0.06], [0.7, 0], [1, 0]),
  'rough ground': points(
    ...[...Array(201).keys()].map((i): [number, number] => [
      i * 0.005,
      0.002 * Math.sin(i * 1.3) + 0.004 * Math.sin(i * 0.31),
    ]),
  ),
};

const energy = (ground: Ground, x: number, z: number) => {
  findTouch(touch, ground, x, z, radius);
  return touch.energy;
};

/** Sum of the forces on the hub over the foundation stiffness, m·rad. */
function force(ground: Ground, x: number, z: number): { x: number; z: number } {
  findTouch(touch, ground, x, z, radius);
  const sum = (row: Float64Array) => row.subarray(0, touch.count).reduce((s, v) => s + v, 0);
  return { x: sum(touch.fx), z: sum(touch.fz) };
}

/** Height of the hub at x, m, at which the nearest ground is this deep in the tyre. */
function hubAt(ground: Ground, x: number, depth: number): number {
  let [low, high] = [heightAt(ground, x), heightAt(ground, x) + 0.2];
  for (let n = 0; n < 60; n++) {
    const middle = 0.5 * (low + high);
    if (middle <= heightAt(ground, x) || distanceToGround(ground, x, middle, 0.3) < radius - depth)
      low = middle;
    else high = middle;
  }
  return high;
}

/** Hub places near station 0.5 with ½ to 6 mm of ground in the tyre: a hundredth to a ninth of the radius. */
const place = fc.tuple(
  fc.double({ min: 0.4, max: 0.6, noNaN: true }),
  fc.double({ min: 5e-4, max: 6e-3, noNaN: true }),
);

describe.each(Object.keys(grounds))('on %s', (name) => {
  const ground = grounds[name] as Ground;

  it('the force is the gradient of the stored energy', () => {
    fc.assert(
      fc.property(place, ([x, depth]) => {
        const z = hubAt(ground, x, depth);
        const step = 1e-7;
        const dx = (energy(ground, x - step, z) - energy(ground, x + step, z)) / (2 * step);
        const dz = (energy(ground, x, z - step) - energy(ground, x, z + step)) / (2 * step);
        const found = force(ground, x, z);
        // central differences of 0.1 µm: rounding 10⁻⁶, and where an end of the contact crosses a vertex within the step
        // the third derivative jumps: 10⁻⁵
        return Math.hypot(found.x - dx, found.z - dz) < 1e-5 * Math.hypot(dx, dz);
      }),
      { seed: 20, numRuns: 300 },
    );
  });

  it('the stored energy is that of rays from the hub to the ground', () => {
    // ½·Σδ²·Δφ over 20,000 rays round the lower side, each to the first ground that it meets. A corner ½ mm deep spans
    // 1°, or 75 rays, whose ends are missed by half a ray at most: 0.1 %. Ground that hides behind other ground is counted twice: 0.3 % at a low step.
    fc.assert(
      fc.property(place, ([x, depth]) => {
        const z = hubAt(ground, x, depth);
        return Math.abs(energy(ground, x, z) / rays(ground, x, z) - 1) < 0.005;
      }),
      { seed: 21, numRuns: 20 },
    );
  });
});

/** Energy over the foundation stiffness, from rays. */
function rays(ground: Ground, x: number, z: number): number {
  const count = 20_000;
  const segments = [...Array(ground.count - 1).keys()]
    .map(
      (i) => [ground.x[i], ground.z[i], ground.x[i + 1], ground.z[i + 1]] as [number, number, number, number],
    )
    .filter(([ax, , bx]) => bx >= x - radius && ax <= x + radius);
  let sum = 0;
  for (let k = 0; k < count; k++) {
    const angle = Math.PI * (0.75 + (1.5 * (k + 0.5)) / count);
    const [cx, cz] = [Math.cos(angle), Math.sin(angle)];
    let nearest = radius;
    for (const [ax, az, bx, bz] of segments) {
      const across = cx * (bz - az) - cz * (bx - ax);
      const along = ((ax - x) * (bz - az) - (az - z) * (bx - ax)) / across;
      const share = ((ax - x) * cz - (az - z) * cx) / across;
      if (along > 0 && share >= 0 && share <= 1) nearest = Math.min(nearest, along);
    }
    sum += 0.5 * (radius - nearest) ** 2 * ((1.5 * Math.PI) / count);
  }
  return sum;
}

describe('a tyre on level ground', () => {
  it('carries its stated load at its stated depth', () => {
    // shallow contact: N = (4√2/3)·k·δ^1.5/√r (leading term of the integral over the rim, derived by hand)
    const [load, stiffness] = [20, 8000];
    const depth = load / stiffness;
    const foundation = foundationOf(radius, stiffness, load);
    expect(foundation * force(grounds['level ground'] as Ground, 0.5, radius - depth).z).toBeCloseTo(load, 9);
    const shallow = ((4 * Math.SQRT2) / 3) * foundation * (depth ** 1.5 / Math.sqrt(radius));
    // the next term is of the order δ/r = 0.045
    expect(Math.abs(load / shallow - 1)).toBeLessThan(0.045);
    expect(Math.abs(load / shallow - 1)).toBeGreaterThan(0.001);
  });

  it('does not care how finely the ground is cut', () => {
    // a follower of single points would stiffen with the number of segments that it meets: 34 here against 2
    const cut = (segment: number) =>
      points(
        ...[...Array(Math.round(1 / segment) + 1).keys()].map((i): [number, number] => [i * segment, 0]),
      );
    const whole = force(cut(0.1), 0.5037, radius - 0.0025).z;
    for (const segment of [0.01, 0.005, 0.001]) {
      const found = force(cut(segment), 0.5037, radius - 0.0025);
      expect(Math.abs(found.z / whole - 1)).toBeLessThan(1e-9);
      expect(Math.abs(found.x / whole)).toBeLessThan(1e-9);
      expect(touch.count).toBe(1);
    }
  });

  it('pulls nothing: over the ground there is no force', () => {
    for (const ground of Object.values(grounds)) {
      for (let x = 0.4; x < 0.6; x += 0.01) {
        expect(energy(ground, x, hubAt(ground, x, -1e-6))).toBe(0);
        expect(touch.count).toBe(0);
      }
    }
  });
});

describe('a tyre on an edge', () => {
  it('rubs at the edge: its friction turns the wheel with the distance of the edge from the hub', () => {
    // Friction along both faces of the corner, in proportion to their forces, adds up to one force across the line from
    // hub to edge, through the edge: arm = that line. (The mean distance of the two faces would be 30 % short of it.)
    const ground = grounds['a step up'] as Ground;
    for (const x of [0.455, 0.46, 0.47, 0.48]) {
      const z = hubAt(ground, x, 2e-4);
      findTouch(touch, ground, x, z, radius);
      expect(touch.count).toBe(1);
      const size = Math.hypot(touch.fx[0] as number, touch.fz[0] as number);
      const arm = Math.hypot(0.5 - x, 0.03 - z);
      // the ground a depth of 0.2 mm to either side of the edge: a share of 0.2 / 55 and less
      expect(Math.abs((touch.moment[0] as number) / size / arm - 1)).toBeLessThan(0.004);
      // and the contact lies there too
      const station = x - ((touch.fx[0] as number) / size) * ((touch.moment[0] as number) / size);
      expect(Math.abs(station - 0.5)).toBeLessThan(2e-4);
    }
  });
});
