import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { heightAt, lineBetween, meanHeight, profileOf } from '../../../src/canvas/geometry/profile.ts';

const ground = (x: number[], z: number[]) =>
  profileOf({ x: Float64Array.from(x), z: Float64Array.from(z), count: x.length });
const step = ground([0, 1, 1, 2], [0, 0, 0.2, 0.2]);

describe('height of the ground', () => {
  it('runs straight between vertices and level beyond the ends', () => {
    const ramp = ground([0, 2], [0, 1]);
    expect(heightAt(ramp, 0.5)).toBeCloseTo(0.25, 12);
    expect(heightAt(ramp, -4)).toBe(0);
    expect(heightAt(ramp, 9)).toBe(1);
  });

  it('has a mean that moves smoothly over a vertical face', () => {
    // A window of 0.5 m whose front edge passes the face by 1 mm sees 1 mm · 0.2 m of it.
    expect(meanHeight(step, 0.501, 1.001)).toBeCloseTo((0.001 * 0.2) / 0.5, 9);
    expect(meanHeight(step, 0, 2)).toBeCloseTo(0.1, 12);
  });

  it('has a mean beyond the ends as if the ground went on level', () => {
    expect(meanHeight(step, 2, 5)).toBeCloseTo(0.2, 12);
    expect(meanHeight(step, -5, -1)).toBeCloseTo(0, 12);
    expect(meanHeight(step, -1, 3)).toBeCloseTo(0.1, 12);
  });
});

describe('ground line of a picture', () => {
  it('keeps vertical faces and reaches to both edges', () => {
    expect(lineBetween(step, 0.5, 1.5, 1e-6)).toEqual([0.5, 0, 1, 0, 1, 0.2, 1.5, 0.2]);
    expect(lineBetween(step, -1, -0.5, 1e-6)).toEqual([-1, 0, -0.5, 0]);
  });

  it('keeps every highest and lowest point when it thins, and goes forward only', () => {
    const heights = fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: 2, maxLength: 400 });
    fc.assert(
      fc.property(heights, fc.double({ min: 0.02, max: 2, noNaN: true }), (z, grain) => {
        const line = lineBetween(
          ground(
            z.map((_, i) => i * 0.05),
            z,
          ),
          0,
          (z.length - 1) * 0.05,
          grain,
        );
        const xs = line.filter((_, i) => i % 2 === 0);
        const zs = line.filter((_, i) => i % 2 === 1);
        expect(Math.max(...zs)).toBeCloseTo(Math.max(...z), 12);
        expect(Math.min(...zs)).toBeCloseTo(Math.min(...z), 12);
        for (let i = 1; i < xs.length; i++)
          expect(xs[i] as number).toBeGreaterThanOrEqual(xs[i - 1] as number);
      }),
    );
  });

  it('thins a long ground to a few points per pixel', () => {
    const n = 100_000;
    const rough = ground(
      Array.from({ length: n }, (_, i) => i * 0.001),
      Array.from({ length: n }, (_, i) => Math.sin(i * 12.9898)),
    );
    // 100 m on 1000 px: at most four points per px and the two ends.
    expect(lineBetween(rough, 0, 99.999, 0.1).length / 2).toBeLessThanOrEqual(4 * 1000 + 2);
  });
});
