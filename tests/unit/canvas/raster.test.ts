import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { rasterBand, runsOf, thin } from '../../../src/charts/raster.ts';

const span = { from: 0, to: 10 };
const f = (values: number[]) => Float64Array.from(values);
const none = f([0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0]);
const even = f([0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10]);

describe('a band', () => {
  it('shows the share of the standing load in every column that the wheel has passed', () => {
    const { share, off } = rasterBand(even, f(Array(11).fill(30)), none, 20, [], span, 50);
    expect([...share].every((s) => Math.abs(s - 1.5) < 1e-6)).toBe(true);
    expect(off.some((o) => o === 1)).toBe(false);
  });

  it('is empty where the wheel has not been', () => {
    const { share } = rasterBand(f([2, 3]), f([10, 10]), f([0, 0]), 10, [], span, 10);
    expect([...share].map(Number.isNaN)).toEqual([
      true,
      true,
      false,
      false,
      true,
      true,
      true,
      true,
      true,
      true,
    ]);
  });

  it('keeps the least of many frames in one column', () => {
    const axis = f(Array.from({ length: 1000 }, (_, i) => i / 100));
    const load = axis.map((_, i) => (i === 537 ? 1 : 10));
    const { share } = rasterBand(axis, load, new Float64Array(1000), 10, [], span, 10);
    expect(share[5]).toBeCloseTo(0.1, 6);
    expect(share[4]).toBeCloseTo(1, 6);
  });

  it('keeps a lift-off of a single frame, and one that lies between two frames', () => {
    const axis = f(Array.from({ length: 1000 }, (_, i) => i / 100));
    const gap = axis.map((_, i) => (i === 537 ? 1e-4 : 0));
    const { off } = rasterBand(
      axis,
      axis.map(() => 10),
      gap,
      10,
      [{ from: 8.001, to: 8.002 }],
      span,
      10,
    );
    expect(runsOf(off)).toEqual([
      [5, 6],
      [8, 9],
    ]);
  });

  it('takes a wheel that goes back over its way', () => {
    const { share } = rasterBand(f([2, 6, 3, 8]), f([10, 10, 4, 10]), f([0, 0, 0, 0]), 10, [], span, 10);
    expect(Math.min(...[...share].filter((s) => !Number.isNaN(s)))).toBeCloseTo(0.4, 6);
    expect(Number.isNaN(share[1] as number)).toBe(true);
    expect(Number.isNaN(share[7] as number)).toBe(false);
  });

  it('never shows less than the least or more than the greatest load', () => {
    const steps = fc.array(
      fc.tuple(fc.double({ min: -1, max: 2, noNaN: true }), fc.double({ min: 0, max: 50, noNaN: true })),
      { minLength: 1, maxLength: 80 },
    );
    fc.assert(
      fc.property(steps, (list) => {
        let at = 0;
        const axis = f(
          list.map(([d]) => {
            at += d;
            return at;
          }),
        );
        const load = f(list.map(([, l]) => l));
        const { share } = rasterBand(axis, load, new Float64Array(list.length), 10, [], span, 37);
        for (const s of share) {
          if (Number.isNaN(s)) continue;
          expect(s).toBeGreaterThanOrEqual(Math.min(...load) / 10 - 1e-5);
          expect(s).toBeLessThanOrEqual(Math.max(...load) / 10 + 1e-5);
        }
      }),
    );
  });
});

describe('a thinned curve', () => {
  it('keeps every peak and every dip that is in sight', () => {
    const n = 20_000;
    const axis = f(Array.from({ length: n }, (_, i) => (i / n) * 10));
    const values = axis.map((_, i) => (i === 7777 ? 50 : i === 12_345 ? -50 : Math.sin(i)));
    const line = thin(axis, values, span, 500);
    expect(Math.max(...line.y)).toBe(50);
    expect(Math.min(...line.y)).toBe(-50);
    expect(line.count).toBeLessThanOrEqual(4 * 500 + 4);
  });

  it('keeps first and last frame and the order of time', () => {
    const line = thin(
      even,
      even.map((v) => v * 2),
      span,
      3,
    );
    expect(line.x[0]).toBe(0);
    expect(line.x[line.count - 1]).toBe(10);
    expect([...line.x]).toEqual([...line.x].sort((a, b) => a - b));
  });

  it('leaves out what is beside the picture but for the neighbours', () => {
    const axis = f(Array.from({ length: 1001 }, (_, i) => i));
    const line = thin(axis, axis, { from: 400, to: 410 }, 100);
    expect(line.count).toBeLessThan(16);
    expect([...line.x]).toContain(399);
    expect([...line.x]).toContain(410);
  });

  it('is empty for a run without frames', () => {
    expect(thin(f([]), f([]), span, 10).count).toBe(0);
  });
});
