/*
 * Spreads and their statistics against published tables, test functions with known indices, and closed forms.
 *
 * Seen red: A and B exchanged in Jansen's first-order estimator; a normal draw with the whole ± as its deviation; the
 * lower end of Clopper–Pearson with held + 1.
 */
import { describe, expect, it } from 'vitest';
import { parseFigure } from '../../shared/units.ts';
import { drawsPerRow, indicesOf, planShares } from '../../sim/chance/indices.ts';
import { clopperPearson } from '../../sim/chance/interval.ts';
import { type Draw, drawAll } from '../../sim/chance/monte-carlo.ts';
import {
  chiSquaredQuantile,
  incompleteBeta,
  logGamma,
  normalQuantile,
  normalShare,
  studentQuantile,
} from '../../sim/chance/special.ts';
import { type Uncertain, valueAt } from '../../sim/chance/spreads.ts';

describe('distributions', () => {
  // Tables of any text on statistics; more digits from Python's statistics.NormalDist().inv_cdf.
  it.each([
    [0.95, 1.6448536269514715],
    [0.975, 1.9599639845400536],
    [0.999, 3.090232306167813],
    [1e-6, -4.753424308822899],
  ])('the normal quantile of %f is %f', (share, wanted) => {
    expect(normalQuantile(share)).toBeCloseTo(wanted, 10);
    expect(normalShare(wanted)).toBeCloseTo(share, 12);
  });

  // Student's t, table of any text on statistics (Abramowitz and Stegun table 26.10), printed digits.
  it.each([
    [0.975, 1, 12.706],
    [0.975, 4, 2.776],
    [0.975, 10, 2.228],
    [0.975, 30, 2.042],
    [0.95, 5, 2.015],
    [0.995, 20, 2.845],
  ])("Student's t at %f with %i degrees of freedom is %f", (share, freedom, wanted) => {
    expect(Math.abs(studentQuantile(share, freedom) - wanted)).toBeLessThan(0.0006);
  });

  // χ², Abramowitz and Stegun table 26.8, printed digits; Wilson and Hilferty are within 1 % from 10 on
  it.each([
    [0.975, 10, 20.4831],
    [0.025, 10, 3.24697],
    [0.95, 30, 43.7729],
    [0.05, 100, 77.9295],
  ])('χ² at %f with %i degrees of freedom is %f within 1 %', (share, freedom, wanted) => {
    expect(Math.abs(chiSquaredQuantile(share, freedom) / wanted - 1)).toBeLessThan(0.01);
  });

  it('the gamma function is the factorial, and √π at a half', () => {
    expect(Math.exp(logGamma(11))).toBeCloseTo(3_628_800, 4);
    expect(Math.exp(logGamma(0.5))).toBeCloseTo(Math.sqrt(Math.PI), 12);
  });

  it('the incomplete beta function is the tail of a binomial sum: NIST DLMF 8.17.5', () => {
    // P(X ≥ 3) of 10 throws at 0.3: 1 − Σ(10 over k)·0.3^k·0.7^(10−k), k = 0, 1, 2
    const tail = 1 - 0.7 ** 10 - 10 * 0.3 * 0.7 ** 9 - 45 * 0.09 * 0.7 ** 8;
    expect(incompleteBeta(0.3, 3, 8)).toBeCloseTo(tail, 13);
  });
});

describe('the interval of Clopper and Pearson', () => {
  // R. Newcombe, "Two-sided confidence intervals for the single proportion", Statistics in Medicine 17 (1998) 857–872,
  // table I, exact (Clopper–Pearson) rows, as printed (from memory); checked here by summing the binomial tails.
  it.each([
    [81, 263, 0.2527, 0.3676],
    [15, 148, 0.0578, 0.1617],
    [0, 20, 0, 0.1684],
    [1, 29, 0.0009, 0.1776],
    [10, 10, 0.6915, 1],
  ])('of %i in %i is %f to %f', (held, count, low, high) => {
    const found = clopperPearson(held, count);
    expect(Math.abs(found.low - low)).toBeLessThan(6e-5);
    expect(Math.abs(found.high - high)).toBeLessThan(6e-5);
  });

  it('with all of n holding begins at (α/2)^(1/n): closed form', () => {
    expect(clopperPearson(60, 60).low).toBeCloseTo(0.025 ** (1 / 60), 12);
  });

  it('at its ends leaves half of what it may miss to either side', () => {
    const { low, high } = clopperPearson(7, 40, 0.9);
    expect(incompleteBeta(low, 7, 34)).toBeCloseTo(0.05, 10);
    expect(1 - incompleteBeta(high, 8, 33)).toBeCloseTo(0.05, 10);
  });
});

const indices = (of: (x: readonly number[]) => number, dimensions: number, rows: number, seed = 7) => {
  const shares = planShares(dimensions, seed);
  const values = Array.from({ length: rows * drawsPerRow(dimensions) }, (_, n) => of(shares(n)));
  const found = indicesOf(values, dimensions, seed);
  if (found === undefined) throw new Error('nothing varies');
  return found;
};

describe('variance-based indices', () => {
  // T. Ishigami and T. Homma, 1990: sin x₁ + 7·sin² x₂ + 0.1·x₃⁴·sin x₁, x uniform on −π … π. Closed forms of its indices:
  // V₁ = ½(1 + b·π⁴/5)², V₂ = a²/8, V₁₃ = b²·π⁸·(1/18 − 1/50); as in A. Saltelli et al., Global Sensitivity Analysis (2008).
  const ishigami = (shares: readonly number[]): number => {
    const [x = 0, y = 0, z = 0] = shares.map((share) => (2 * share - 1) * Math.PI);
    return Math.sin(x) + 7 * Math.sin(y) ** 2 + 0.1 * z ** 4 * Math.sin(x);
  };
  const [a, b] = [7, 0.1];
  const v1 = (1 + (b * Math.PI ** 4) / 5) ** 2 / 2;
  const v2 = a ** 2 / 8;
  const v13 = b ** 2 * Math.PI ** 8 * (1 / 18 - 1 / 50);
  const whole = v1 + v2 + v13;

  it('of the Ishigami function are 0.314, 0.442, 0 and 0.558, 0.442, 0.244', () => {
    // the printed digits, so that the closed forms above are themselves checked
    expect([v1, v2, v1 + v13, v13].map((v) => (v / whole).toFixed(3))).toEqual([
      '0.314',
      '0.442',
      '0.558',
      '0.244',
    ]);
    const found = indices(ishigami, 3, 2048);
    const first = [v1, v2, 0].map((v) => v / whole);
    const total = [v1 + v13, v2, v13].map((v) => v / whole);
    // 2048 independent rows have a standard error of some 0.02; even points stay within 0.02 at the worst
    found.of.forEach((index, i) => {
      expect(Math.abs(index.first.value - (first[i] as number))).toBeLessThan(0.02);
      expect(Math.abs(index.total.value - (total[i] as number))).toBeLessThan(0.02);
      // the bootstrap's 95 % interval: 12 figures in two tests, so that even one outside would be a surprise of even points
      expect(index.total.low).toBeLessThanOrEqual(total[i] as number);
      expect(index.total.high).toBeGreaterThanOrEqual(total[i] as number);
      expect(index.first.low).toBeLessThanOrEqual(first[i] as number);
      expect(index.first.high).toBeGreaterThanOrEqual(first[i] as number);
    });
    expect(Math.abs(found.variance / whole - 1)).toBeLessThan(0.02);
  });

  // I. M. Sobol' 1993; A. Saltelli and I. M. Sobol' 1995: Π (|4xᵢ − 2| + aᵢ)/(1 + aᵢ), Vᵢ = 1/(3(1 + aᵢ)²).
  it("of Sobol's g-function are Vᵢ/V and Vᵢ·Π(1 + Vⱼ)/V", () => {
    const weights = [0, 1, 4.5, 9];
    const g = (x: readonly number[]) =>
      weights.reduce((product, w, i) => (product * (Math.abs(4 * (x[i] as number) - 2) + w)) / (1 + w), 1);
    const parts = weights.map((w) => 1 / (3 * (1 + w) ** 2));
    const all = parts.reduce((product, v) => product * (1 + v), 1);
    const found = indices(g, 4, 2048);
    found.of.forEach((index, i) => {
      const v = parts[i] as number;
      expect(Math.abs(index.first.value - v / (all - 1))).toBeLessThan(0.02);
      expect(Math.abs(index.total.value - (v * all) / (1 + v) / (all - 1))).toBeLessThan(0.02);
    });
  });

  it('rank what matters, and of what does not vary there are none', () => {
    expect(
      indicesOf(
        Array.from({ length: 64 }, () => 3),
        2,
        1,
      ),
    ).toBeUndefined();
  });
});

const uncertain = (text: string, key: string): Uncertain => {
  const read = parseFigure(text, 'mass');
  if (!read.ok || read.value.spread === undefined) throw new Error('no spread');
  return {
    name: key,
    middle: read.value.value,
    form: read.value.spread,
    moves: { kind: 'figure', path: [key] },
  };
};
const figureOf = ({ settings }: Draw, key: string) =>
  settings.find(({ path }) => path[0] === key)?.value ?? 0;

describe('Monte Carlo of a linear case', () => {
  const masses = [uncertain('2.4 kg ± 10 %', 'a'), uncertain('1 kg ± 0.2 kg', 'b')];
  // The sum is normal: mean 3.4, deviation √(0.12² + 0.1²). The cut at four deviations takes 0.1 % of the variance.
  const deviation = Math.hypot(0.12, 0.1);
  const sum = (draw: Draw) => figureOf(draw, 'a') + figureOf(draw, 'b');
  const most = 3.4 + 1.2 * deviation;
  const truth = normalShare(1.2);
  const run = (seed: number, draws: number) =>
    drawAll({ uncertain: masses, seed, criteria: 1, width: 0.001, most: draws }, (draw) => ({
      holds: [sum(draw) <= most],
      measures: [sum(draw)],
    })).sureness();

  it('has the mean, the percentiles and the probability of the closed form', () => {
    const found = run(3, 4096);
    expect(found.draws).toBe(4096);
    const [measure] = found.measures;
    // independent draws would scatter by 0.0024 in the mean and 0.005 in the outer percentiles; even ones do less
    expect(Math.abs((measure?.mean ?? 0) - 3.4)).toBeLessThan(0.001);
    expect(Math.abs((measure?.p5 ?? 0) - (3.4 - 1.6448536 * deviation))).toBeLessThan(0.005);
    expect(Math.abs((measure?.p95 ?? 0) - (3.4 + 1.6448536 * deviation))).toBeLessThan(0.005);
    expect(Math.abs(found.all.value - truth)).toBeLessThan(0.005);
  });

  it('covers the true probability with its interval at least as often as it says, for even points too', () => {
    const seeds = Array.from({ length: 200 }, (_, seed) => seed);
    const covered = seeds.filter((seed) => {
      const { low, high } = run(seed, 128).all;
      return low <= truth && truth <= high;
    }).length;
    expect(covered).toBeGreaterThanOrEqual(190);
  });

  it('draws uniform figures and repeats as they were written', () => {
    const range = uncertain('2 .. 3 kg', 'a');
    expect(valueAt(range, 0.25)).toBeCloseTo(2.25, 12);
    const repeats = uncertain('2.1; 2.3; 2.2 kg', 'a');
    expect([0.1, 0.5, 0.99].map((share) => valueAt(repeats, share))).toEqual([2.1, 2.2, 2.3]);
    // inverse of the normal distribution, its cut apart
    expect(valueAt(masses[0] as Uncertain, 0.975)).toBeCloseTo(2.4 + 1.95996 * 0.12, 3);
  });
});
