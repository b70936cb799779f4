/*
 * Statistics of rough ground against closed forms: a linear quarter car on ISO 8608 ground, the spectrum of the
 * generated ground against the line of its class, white noise and a sine through Welch's method. (The roughness index of
 * generated ground is in ground.test.ts.)
 *
 * Seen red: the one-sided spectrum halved; the power of the window left out; a load 10 % too large; an interval far too
 * narrow.
 */
import { Matrix } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import { studentQuantile } from '../../sim/chance/special.ts';
import { chance } from '../../sim/ground/chance.ts';
import { classMeans, roadGrid, roadHeights } from '../../sim/ground/road.ts';
import { cutsOf, type Estimate, meanOf, segmentMeans, segmentsPerRide } from '../../sim/rough/segments.ts';
import { figuresOf, type Ride, spectraOf } from '../../sim/rough/statistics.ts';
import { densityInterval, partLength, welch } from '../../sim/rough/welch.ts';
import { normal } from '../../sim/searching/normal.ts';

/** exp(A) by scaling, Taylor's series and squaring; A small. */
function exponential(a: Matrix): Matrix {
  const squarings = 10;
  const small = Matrix.div(a, 2 ** squarings);
  let term = Matrix.eye(a.rows);
  let sum = Matrix.eye(a.rows);
  for (let k = 1; k < 20; k++) {
    term = Matrix.div(term.mmul(small), k);
    sum = Matrix.add(sum, term);
  }
  for (let i = 0; i < squarings; i++) sum = sum.mmul(sum);
  return sum;
}

// --- Quarter car on a class C road at 20 m/s -----------------------------------------------------------------------

const car = { ms: 317.5, mu: 45.4, ks: 22_000, kt: 192_000, c: 1500 };
const speed = 20;

/**
 * Sprung acceleration, suspension travel and tyre force along heights with a spacing: exact for a road of straight lines
 * (the height and its slope go into the state, and one exponential makes each step).
 */
function driven(heights: Float64Array, spacing: number) {
  const { ms, mu, ks, kt, c } = car;
  const step = spacing / speed;
  const a = new Matrix([
    [0, 1, 0, 0, 0, 0],
    [-ks / ms, -c / ms, ks / ms, c / ms, 0, 0],
    [0, 0, 0, 1, 0, 0],
    [ks / mu, c / mu, -(ks + kt) / mu, -c / mu, kt / mu, 0],
    [0, 0, 0, 0, 0, 1],
    [0, 0, 0, 0, 0, 0],
  ]);
  const rows = exponential(Matrix.mul(a, step)).to2DArray();
  const first = heights[0] as number;
  let state = [first, 0, first, 0, first, 0];
  const count = heights.length - 1;
  const out = {
    acceleration: new Float64Array(count),
    travel: new Float64Array(count),
    force: new Float64Array(count),
  };
  for (let i = 0; i < count; i++) {
    const height = heights[i] as number;
    const [zs = 0, vs = 0, zu = 0, vu = 0] = state;
    out.acceleration[i] = (-ks * (zs - zu) - c * (vs - vu)) / ms;
    out.travel[i] = zs - zu;
    out.force[i] = kt * (height - zu);
    const now = [zs, vs, zu, vu, height, ((heights[i + 1] as number) - height) / step];
    state = rows.map((row) => row.reduce((sum, value, j) => sum + value * (now[j] as number), 0));
  }
  return out;
}

const road = { roughness: classMeans.C, length: 1600, longest: 100, shortest: 0.1 };
const runs = [1, 2, 3, 4].map((seed) => {
  const grid = roadGrid(road);
  const heights = roadHeights({ ...road, seed }, grid);
  const whole = driven(heights, grid.spacing);
  // 4 s: the slow pole dies as e^(−1.94·t), to 0.04 %
  const begin = Math.round((4 * speed) / grid.spacing);
  return {
    rate: speed / grid.spacing,
    acceleration: whole.acceleration.slice(begin),
    travel: whole.travel.slice(begin),
    force: whole.force.slice(begin),
  };
});
const load = (car.ms + car.mu) * 9.81;
const rides = runs.map(
  ({ rate, acceleration, force }): Ride => ({
    wheels: ['only'],
    rate,
    from: 0,
    to: acceleration.length / rate,
    way: (speed * acceleration.length) / rate,
    acceleration,
    loads: [force.map((f) => load + f)],
    flights: [],
    cut: { before: 0, dying: 0 },
  }),
);

/** Closed forms for a white road velocity (Hac and Youn; Türkay and Akçay: papers from memory; checked by a Lyapunov solution). */
function closedForms() {
  const { ms, mu, ks, kt, c } = car;
  const m = ms + mu;
  const q = 2 * Math.PI ** 2 * classMeans.C * 0.1 ** 2 * speed;
  return {
    travel: (q * m) / (2 * c),
    acceleration: (q / 2) * ((m * ks ** 2) / (c * ms ** 2) + (c * kt) / ms ** 2),
    force:
      (q / 2) *
      ((m ** 3 * ks ** 2) / (c * ms ** 2) -
        (2 * mu * m * ks * kt) / (c * ms) +
        (mu * kt ** 2) / c +
        (c * kt * m ** 2) / ms ** 2),
  };
}

describe('a quarter car on generated class C ground at 20 m/s', () => {
  const closed = closedForms();
  const figures = figuresOf(rides);
  /** Of an interval at 95 %: its half width over Student's t. */
  const errorOf = ({ low, high }: Estimate) =>
    (high - low) / 2 / studentQuantile(0.975, figures.segments.count - 1);
  const squared = ({ value, low, high }: Estimate): Estimate => ({
    value: value ** 2,
    low: low ** 2,
    high: high ** 2,
  });

  it('has closed forms with the printed digits', () => {
    expect(Math.sqrt(closed.travel) * 1000).toBeCloseTo(11.0569, 4);
    expect(Math.sqrt(closed.acceleration)).toBeCloseTo(1.42502, 5);
    expect(Math.sqrt(closed.force)).toBeCloseTo(826.78, 2);
  });

  // the band of 0.01 to 10 cycle/m lowers the RMS by 0.02 % (travel), 0.01 % (acceleration) and 0.70 % (force)
  it('has the RMS acceleration within three standard errors', () => {
    const found = squared(figures.acceleration);
    const wanted = closed.acceleration * 0.9999 ** 2;
    expect(Math.abs(found.value - wanted)).toBeLessThan(3 * errorOf(found));
    // and the error is small enough that this says something
    expect(errorOf(found) / found.value).toBeLessThan(0.05);
  });

  it('has the RMS tyre force within three standard errors, and the load coefficient with it', () => {
    const [wheel] = figures.wheels;
    if (wheel === undefined) throw new Error('no wheel');
    const found = squared(wheel.loadRms);
    expect(Math.abs(found.value - closed.force * 0.993 ** 2)).toBeLessThan(3 * errorOf(found));
    expect(errorOf(found) / found.value).toBeLessThan(0.05);
    expect(Math.abs(wheel.load / load - 1)).toBeLessThan(0.005);
    expect(wheel.coefficient.value).toBeCloseTo(wheel.loadRms.value / wheel.load, 12);
  });

  it('has the RMS travel within three standard errors', () => {
    const squares = runs.map(({ travel }) => travel.map((x) => x * x));
    const { perRide } = segmentsPerRide(squares, 60);
    const found = meanOf(squares.flatMap((each) => segmentMeans(each, cutsOf(each.length, perRide))));
    const error = (found.high - found.low) / 2 / studentQuantile(0.975, perRide * 4 - 1);
    expect(Math.abs(found.value - closed.travel * 0.9998 ** 2)).toBeLessThan(3 * error);
    expect(error / found.value).toBeLessThan(0.1);
  });

  it('has in its spectrum the power of the acceleration', () => {
    const spectrum = spectraOf(rides)?.acceleration;
    if (spectrum === undefined) throw new Error('too short');
    const apart = spectrum.frequency[0] as number;
    const power = spectrum.density.reduce((sum, density) => sum + density * apart, 0);
    // a Hann window loses what is slower than a part (2.6 s here), where next to nothing of an acceleration lies
    expect(Math.abs(Math.sqrt(power) / figures.acceleration.value - 1)).toBeLessThan(0.01);
  });
});

// --- Spectrum of the ground ----------------------------------------------------------------------------------------

describe('the Welch spectrum of generated ground, against the line of its class Gd(n) = Gd(n0)·(n/n0)^−2 (ISO 8608)', () => {
  it.each(['A', 'C', 'E'] as const)('class %s lies on its line from 0.03 to 3 cycle/m', (name) => {
    const grid = roadGrid({ length: 3200, longest: 100, shortest: 0.2 });
    const series = [1, 2, 3].map((seed) =>
      roadHeights({ roughness: classMeans[name], length: 3200, longest: 100, shortest: 0.2, seed }, grid),
    );
    // parts of 205 m or more, so that the lowest frequencies of the band lie many lines apart from the mean
    const length = 2 ** Math.ceil(Math.log2(205 / grid.spacing));
    const found = welch(series, 1 / grid.spacing, length);
    if (found === undefined) throw new Error('too short');
    for (let from = 0.03; from < 3; from *= 2) {
      const inside = [...found.frequency.keys()].filter((k) => {
        const n = found.frequency[k] as number;
        return n >= from && n < Math.min(3, 2 * from);
      });
      const ratios = inside.map(
        (k) =>
          (found.density[k] as number) / (classMeans[name] * ((found.frequency[k] as number) / 0.1) ** -2),
      );
      const mean = ratios.reduce((sum, ratio) => sum + ratio, 0) / ratios.length;
      // Each ratio scatters by √(2/ν); under a Hann window some 1.5 lines count as one. The window widens a line of
      // slope −2 by (1 + 3·(Δn/n)²·⅓…): below 2 % from six lines on.
      const error = Math.sqrt((2 / found.freedom) * (1.5 / ratios.length));
      expect(Math.abs(mean - 1), `${from} cycle/m`).toBeLessThan(3 * error + 0.02);
      expect(error).toBeLessThan(0.12);
    }
  });
});

describe("Welch's method", () => {
  const noise = (count: number, seed: number) => {
    const draw = chance(seed);
    return Float64Array.from({ length: count }, () => normal(draw));
  };

  it('gives white noise of variance 1 the level 2/rate at every frequency', () => {
    const found = welch([noise(2 ** 15, 3)], 100, 256);
    const densities = found?.density.subarray(0, 127) ?? [];
    const mean = [...densities].reduce((sum, d) => sum + d, 0) / 127;
    // 127 densities of some 240 degrees of freedom each: √(2/240/85) = 1 %
    expect(Math.abs(mean / 0.02 - 1)).toBeLessThan(0.03);
    const { low, high } = densityInterval(found?.freedom ?? 1);
    const outside = [...densities].filter((d) => d * low > 0.02 || d * high < 0.02).length;
    // 95 %: six of 127 outside on the mean; neighbours go together under the window
    expect(outside).toBeLessThanOrEqual(14);
  });

  it('gives a sine of amplitude A the power A²/2, where its frequency is', () => {
    const sine = Float64Array.from({ length: 4096 }, (_, i) => 3 * Math.sin((2 * Math.PI * 12.5 * i) / 100));
    const found = welch([sine], 100, 512);
    const apart = found?.frequency[0] ?? 0;
    expect((found?.density.reduce((sum, d) => sum + d, 0) ?? 0) * apart).toBeCloseTo(4.5, 6);
    const top = found?.density.indexOf(Math.max(...found.density)) ?? -1;
    expect(found?.frequency[top]).toBeCloseTo(12.5, 9);
  });

  it('takes parts that leave eight or more, and none of what is too short', () => {
    expect(partLength(10_000)).toBe(2048);
    expect(partLength(50)).toBe(0);
    expect(welch([new Float64Array(100)], 1, 128)).toBeUndefined();
  });
});
