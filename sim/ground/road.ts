import { chance } from './chance.ts';
import { sumHarmonics } from './harmonics.ts';

/**
 * Displacement spectrum of the road classes at n0 = 0.1 cycle/m, m³: the geometric mean of each class's limits, which
 * lie a factor of 2 to either side (upper limits 32, 128, 512, … ·10⁻⁶ m³). Source: ISO 8608:2016, table of road
 * classes. The standard's other table, at 1 rad/m, has other numbers: never mix them (factor 50/π = 15.9).
 */
export const classMeans = {
  A: 16e-6,
  B: 64e-6,
  C: 256e-6,
  D: 1024e-6,
  E: 4096e-6,
  F: 16384e-6,
  G: 65536e-6,
  H: 262144e-6,
} as const;

/** Reference spatial frequency n0 of the classes, cycle/m (ISO 8608:2016). */
const referenceFrequency = 0.1;

/**
 * Points per shortest wave. A straight line between neighbours misses the shortest wave by up to 8 % of its amplitude
 * and longer ones by less, with the square of their length; the power at the very end of the band comes out 10 % low.
 */
export const pointsPerWave = 8;

/** Full-size road to be made: lengths in m. */
export interface Road {
  /** One-sided displacement spectrum at n0, m³. */
  readonly roughness: number;
  readonly length: number;
  /** Longest and shortest wave of the band. */
  readonly longest: number;
  readonly shortest: number;
  readonly seed: number;
}

/** The even spacing of a road, its period in places (a power of two), and its waves: `first` … `last` per period. */
export interface RoadGrid {
  readonly spacing: number;
  readonly steps: number;
  readonly period: number;
  readonly first: number;
  readonly last: number;
}

/** How a road is divided: `steps` equal steps over its length, at least `pointsPerWave` on the shortest wave. */
export function roadGrid({
  length,
  longest,
  shortest,
}: Pick<Road, 'length' | 'longest' | 'shortest'>): RoadGrid {
  const steps = Math.ceil((length * pointsPerWave) / shortest);
  const spacing = length / steps;
  const period = 2 ** Math.max(2, Math.ceil(Math.log2(steps)));
  const first = Math.max(1, Math.ceil((period * spacing) / longest));
  const last = Math.min(period / 2 - 1, Math.floor((period * spacing) / shortest));
  return { spacing, steps, period, first, last };
}

/**
 * Heights of one whole period of a random road at `grid.spacing`, m: cosines at n = k/period for each k of the grid,
 * of amplitude √(2·Gd(n)·Δn) with Gd(n) = Gd(n0)·(n/n0)⁻² (ISO 8608:2016, waviness 2) and random phases. A cosine of
 * amplitude A carries A²/2, so the heights have exactly the variance Σ Gd(n)·Δn.
 */
export function roadHeights(road: Road, grid: RoadGrid): Float64Array {
  const amplitude = new Float64Array(grid.last + 1);
  const phase = new Float64Array(grid.last + 1);
  const next = chance(road.seed);
  const apart = 1 / (grid.period * grid.spacing);
  for (let k = grid.first; k <= grid.last; k++) {
    const spectrum = road.roughness * ((k * apart) / referenceFrequency) ** -2;
    amplitude[k] = Math.sqrt(2 * spectrum * apart);
    phase[k] = 2 * Math.PI * next();
  }
  return sumHarmonics(amplitude, phase, grid.period);
}
