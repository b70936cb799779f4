import { describe, expect, it } from 'vitest';
import { profileOf } from '../../../src/canvas/geometry/profile.ts';
import { tyreOutline, underside } from '../../../src/canvas/geometry/tyre.ts';

const ground = (x: number[], z: number[]) =>
  profileOf({ x: Float64Array.from(x), z: Float64Array.from(z), count: x.length });
const level = ground([0, 10], [0, 0]);
const step = ground([0, 5, 5, 10], [0, 0, 0.04, 0.04]);
const R = 0.05;

function points(outline: readonly number[]): { x: number; z: number; r: number }[] {
  const out: { x: number; z: number; r: number }[] = [];
  for (let i = 0; i < outline.length; i += 2) {
    const x = outline[i] as number;
    const z = outline[i + 1] as number;
    out.push({ x, z, r: Math.hypot(x, z) });
  }
  return out;
}

/** Area by the shoelace rule, m². */
function area(outline: readonly number[]): number {
  const p = points(outline);
  return p.reduce((sum, a, i) => {
    const b = p[(i + 1) % p.length] as { x: number; z: number };
    return sum + (a.x * b.z - b.x * a.z) / 2;
  }, 0);
}

describe('outline of a tyre', () => {
  it('is the whole circle while the wheel is off the ground', () => {
    for (const { r } of points(tyreOutline(level, { x: 5, z: 0.06 }, R, 60))) expect(r).toBeCloseTo(R, 12);
  });

  it('is cut off level where the ground is level, by the true deflection', () => {
    const outline = tyreOutline(level, { x: 5, z: R - 0.002 }, R, 60);
    const lowest = Math.min(...points(outline).map((p) => p.z));
    expect(lowest).toBeCloseTo(-(R - 0.002), 12);
    // The chord of a circle of radius R at distance R − d from its centre: half of it is √(R² − (R − d)²).
    const half = Math.sqrt(R ** 2 - (R - 0.002) ** 2);
    const flat = points(outline).filter((p) => p.z < lowest + 1e-9);
    expect(Math.max(...flat.map((p) => p.x))).toBeCloseTo(half, 6);
    expect(Math.min(...flat.map((p) => p.x))).toBeCloseTo(-half, 6);
  });

  it('loses the area of the circle segment', () => {
    const d = 0.004;
    const angle = 2 * Math.acos((R - d) / R);
    const segment = (R ** 2 / 2) * (angle - Math.sin(angle));
    // 720 steps: the polygon is smaller than its circle by (2π/720)²/6 = 0.0013 %, of 7.85e-3 m²: 1e-7.
    expect(area(tyreOutline(level, { x: 5, z: R - d }, R, 720))).toBeCloseTo(Math.PI * R ** 2 - segment, 6);
  });

  it('touches a step edge and the level in front of it at once, and never lies in the earth', () => {
    const hub = { x: 5 - 0.03, z: R - 0.001 };
    const outline = tyreOutline(step, hub, R, 90);
    for (const p of points(outline)) {
      const x = hub.x + p.x;
      const z = hub.z + p.z;
      expect(z).toBeGreaterThan(-1e-9);
      if (z < 0.04 - 1e-6) expect(x).toBeLessThan(5 + 1e-6);
    }
    // The edge itself lies on the outline.
    const edge = { x: 5 - hub.x, z: 0.04 - hub.z };
    const nearest = Math.min(...points(outline).map((p) => Math.hypot(p.x - edge.x, p.z - edge.z)));
    expect(nearest).toBeLessThan(1e-6);
  });

  it('stands on level ground beyond both ends of the ground', () => {
    for (const x of [-3, 13]) {
      const lowest = Math.min(...points(tyreOutline(level, { x, z: R - 0.002 }, R, 60)).map((p) => p.z));
      expect(lowest).toBeCloseTo(-(R - 0.002), 12);
    }
  });

  it('does not mind a vertical face right under the hub', () => {
    const outline = tyreOutline(step, { x: 5, z: 0.04 + R - 0.001 }, R, 60);
    expect(outline.every(Number.isFinite)).toBe(true);
    // The flat reaches √(R² − (R − d)²) = 9.95 mm to the front.
    expect(underside(outline, 0.009)).toBeCloseTo(-(R - 0.001), 9);
  });
});

describe('underside of an outline', () => {
  it('is the flat where the tyre rests and the rim beside it', () => {
    const outline = tyreOutline(level, { x: 5, z: R - 0.002 }, R, 360);
    expect(underside(outline, 0)).toBeCloseTo(-(R - 0.002), 9);
    expect(underside(outline, 0.03)).toBeCloseTo(-0.04, 4);
  });
});
