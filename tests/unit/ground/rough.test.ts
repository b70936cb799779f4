import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { chance, wordsFrom } from '../../../sim/ground/chance.ts';
import { sumHarmonics } from '../../../sim/ground/harmonics.ts';
import { pointsPerWave, roadGrid, roadHeights } from '../../../sim/ground/road.ts';
import { rough } from '../../../sim/ground/rough.ts';
import { shapeOf, told } from './kinds.ts';

describe('repeatable chance', () => {
  it('gives the words of the reference generator', () => {
    // Source: output of the authors' C code for xoshiro128** 1.1 from state {1, 2, 3, 4}, as public ports quote it.
    const next = wordsFrom([1, 2, 3, 4]);
    expect(Array.from({ length: 10 }, next)).toEqual([
      11520, 0, 5927040, 70819200, 2031721883, 1637235492, 1287239034, 3734860849, 3729100597, 4258142804,
    ]);
  });

  it('gives evenly spread numbers in [0, 1)', () => {
    const next = chance(5);
    const drawn = Array.from({ length: 10_000 }, next);
    expect(drawn.every((x) => x >= 0 && x < 1)).toBe(true);
    const tenths = Array.from({ length: 10 }, (_, i) => drawn.filter((x) => Math.floor(10 * x) === i).length);
    // 1000 expected in each tenth, standard deviation 30: four of them.
    for (const n of tenths) expect(Math.abs(n - 1000)).toBeLessThan(120);
  });

  it('gives neighbouring seeds unrelated numbers', () => {
    const [a, b] = [chance(0), chance(1)];
    const pairs = Array.from({ length: 2000 }, () => ((a() - 0.5) * (b() - 0.5)) / (1 / 12));
    // Correlation of independent numbers: standard deviation 1/√2000 = 0.022; four of them.
    expect(Math.abs(pairs.reduce((sum, x) => sum + x, 0) / 2000)).toBeLessThan(0.09);
  });
});

describe('the sum of harmonics', () => {
  it('is what adding cosines one by one gives', () => {
    const figure = fc.double({ min: -1, max: 1, noNaN: true });
    const arbitrary = fc.integer({ min: 2, max: 7 }).chain((bits) =>
      fc.record({
        bits: fc.constant(bits),
        waves: fc.array(fc.tuple(figure, fc.double({ min: 0, max: 6.3, noNaN: true })), {
          maxLength: 2 ** (bits - 1),
        }),
      }),
    );
    fc.assert(
      fc.property(arbitrary, ({ bits, waves }) => {
        const n = 2 ** bits;
        const sum = sumHarmonics(
          Float64Array.from(waves, ([a]) => a),
          Float64Array.from(waves, ([, p]) => p),
          n,
        );
        for (let j = 0; j < n; j++) {
          const direct = waves.reduce((s, [a, p], k) => s + a * Math.cos((2 * Math.PI * j * k) / n + p), 0);
          // Up to 64 terms of size 1 with roundings of 1e-16 each, and phases up to 400 rad: 1e-13 each.
          expect(Math.abs((sum[j] ?? Number.NaN) - direct)).toBeLessThan(1e-11);
        }
      }),
    );
  });

  it('refuses a count that is no power of two, and more harmonics than fit', () => {
    expect(() => sumHarmonics(new Float64Array(2), new Float64Array(2), 12)).toThrow(RangeError);
    expect(() => sumHarmonics(new Float64Array(9), new Float64Array(9), 16)).toThrow(RangeError);
  });
});

describe('random rough ground', () => {
  const written = { length: '6 m', class: 'C', seed: 7, scale: 16 };

  it('is the same for the same seed and another for another', () => {
    expect(shapeOf(rough, written).points).toEqual(shapeOf(rough, written).points);
    const a = shapeOf(rough, written).points;
    const b = shapeOf(rough, { ...written, seed: 8 }).points;
    expect(b).toHaveLength(a.length);
    // Two unrelated roads differ nearly everywhere; a road that ignored its seed would differ nowhere.
    expect(a.filter((p, i) => p.z !== b[i]?.z).length).toBeGreaterThan(0.99 * a.length - 2);
  });

  it('starts and ends at height 0, and nearly level', () => {
    const { points } = shapeOf(rough, written);
    expect([points[0]?.z, points.at(-1)?.z]).toEqual([0, 0]);
    expect(points.at(-1)?.x).toBe(6);
    const steepest = (part: typeof points) =>
      Math.max(
        ...part.slice(1).map((p, i) => Math.abs((p.z - (part[i]?.z ?? 0)) / (p.x - (part[i]?.x ?? 0)))),
      );
    const few = 20;
    expect(steepest(points.slice(0, few))).toBeLessThan(0.05 * steepest(points));
    expect(steepest(points.slice(-few))).toBeLessThan(0.05 * steepest(points));
  });

  it('is the road itself between the tapers', () => {
    const road = { roughness: 256e-6, length: 96, longest: 100, shortest: 0.3, seed: 7 };
    const heights = roadHeights(road, roadGrid(road));
    const { points } = shapeOf(rough, { ...written, taper: '500 mm' });
    const inside = points.map((p, i) => ({ ...p, i })).filter((p) => p.x > 0.5 && p.x < 5.5);
    expect(inside.length).toBeGreaterThan(2000);
    for (const p of inside) expect(p.z).toBe((heights[p.i] ?? Number.NaN) / 16);
  });

  it('grows over the taper like half a cosine: to a half in the middle of it', () => {
    const { points } = shapeOf(rough, { ...written, taper: '500 mm' });
    const free = shapeOf(rough, { ...written, taper: 0 }).points;
    points.slice(1, -1).forEach((p, i) => {
      const fromEnd = Math.min(p.x, 6 - p.x);
      const share = fromEnd < 0.5 ? Math.sin((Math.PI / 2) * (fromEnd / 0.5)) ** 2 : 1;
      expect(Math.abs(p.z - share * (free[i + 1]?.z ?? 0))).toBeLessThan(1e-15);
    });
  });

  it('has no wave longer than the longest or shorter than the shortest', () => {
    for (const length of [30, 96, 819.2, 1000]) {
      const grid = roadGrid({ length, longest: 20, shortest: 0.3 });
      const period = grid.period * grid.spacing;
      expect(period).toBeGreaterThanOrEqual(length);
      expect(period / grid.first).toBeLessThanOrEqual(20);
      expect(period / (grid.first - 1)).toBeGreaterThan(20);
      expect(period / grid.last).toBeGreaterThanOrEqual(0.3);
      expect(period / (grid.last + 1)).toBeLessThan(0.3);
    }
  });

  it('of a model is the full-size road, lengths and heights divided by the scale', () => {
    const model = shapeOf(rough, written).points;
    const full = shapeOf(rough, { ...written, length: '96 m', scale: 1 }).points;
    expect(model).toHaveLength(full.length);
    model.forEach((p, i) => {
      // Two roundings of figures below 100.
      expect(Math.abs(p.x * 16 - (full[i]?.x ?? 0))).toBeLessThan(1e-12);
      expect(Math.abs(p.z * 16 - (full[i]?.z ?? 0))).toBeLessThan(1e-12);
    });
  });

  it('of a class is the ground of its roughness, and four times the roughness gives twice the height', () => {
    const byClass = shapeOf(rough, written).points;
    const { class: _, ...rest } = written;
    expect(shapeOf(rough, { ...rest, roughness: '256e-6 m^3' }).points).toEqual(byClass);
    const rougher = shapeOf(rough, { ...written, class: 'D' }).points;
    rougher.forEach((p, i) => {
      expect(Math.abs(p.z - 2 * (byClass[i]?.z ?? 0))).toBeLessThan(1e-14);
    });
  });

  it('is drawn with eight points on its shortest wave, and no more', () => {
    const { points } = shapeOf(rough, { length: '10 m', class: 'A', shortest: '0.2 m' });
    expect(points).toHaveLength((10 / 0.2) * pointsPerWave + 1);
  });

  it('wants a class or a roughness, and waves that fit', () => {
    expect(told(rough, { length: 6 })[0]).toMatch(/^has neither a class nor a roughness/);
    expect(told(rough, { ...written, roughness: 1e-6 })[0]).toMatch(/^roughness: stands beside a class/);
    expect(told(rough, { ...written, shortest: 200 })[0]).toMatch(
      /^shortest: is 200 m, not shorter than the longest wave/,
    );
    expect(told(rough, { length: 0.05, class: 'A' })[0]).toMatch(
      /^length: is 50 mm at full size, shorter than its shortest wave/,
    );
    expect(told(rough, { ...written, taper: 4 })[0]).toMatch(/^taper: is 4 m, more than half the length/);
    expect(told(rough, { length: 9000, class: 'A' })[0]).toMatch(/^length: makes a ground of 240,000 points/);
    expect(rough.fields.safeParse({ ...written, class: 'I' }).success).toBe(false);
  });
});
