import FFT from 'fft.js';
import { chiSquaredQuantile } from '../chance/special.ts';

/** Power spectral density of a signal, one-sided: its integral over all frequencies is the variance. */
export interface Spectrum {
  /** Rising, from the first one above zero, in cycles per unit of what the samples are spaced by: Hz for time. */
  readonly frequency: Float64Array;
  /** Signal squared per unit of frequency. */
  readonly density: Float64Array;
  /** Parts that were averaged, overlapping by half. */
  readonly parts: number;
  /** Degrees of freedom of each density, as that of a χ² distribution. */
  readonly freedom: number;
}

/** Samples per part for `count` samples: a power of two that leaves 8 parts or more, 4096 at most; 0 for too few. */
export function partLength(count: number): number {
  const most = 2 ** Math.floor(Math.log2(Math.max(1, count / 4.5)));
  return most < 16 ? 0 : Math.min(4096, most);
}

/**
 * Power spectral density by Welch's method: parts of `length` samples that overlap by half, each without its mean and
 * under a Hann window, their periodograms averaged over all parts of all series. Neighbours that overlap by half share
 * 1/36 of their variance under this window, which the degrees of freedom take into account.
 * Source: P. D. Welch, IEEE Trans. Audio Electroacoust. 15 (1967) 70–73.
 * @param series samples evenly spaced, `rate` of them per unit; series shorter than a part are left out
 * @param length a power of two, 2 at least
 * @returns undefined when no series is long enough
 */
export function welch(
  series: readonly ArrayLike<number>[],
  rate: number,
  length: number,
): Spectrum | undefined {
  const window = Float64Array.from({ length }, (_, i) => (1 - Math.cos((2 * Math.PI * i) / length)) / 2);
  const power = window.reduce((sum, w) => sum + w * w, 0);
  const fft = new FFT(length);
  const part = new Array<number>(length).fill(0);
  const out = fft.createComplexArray() as number[];
  const density = new Float64Array(length / 2);
  let parts = 0;
  for (const samples of series)
    for (let from = 0; from + length <= samples.length; from += length / 2) {
      let mean = 0;
      for (let i = 0; i < length; i++) mean += (samples[from + i] as number) / length;
      for (let i = 0; i < length; i++)
        part[i] = (window[i] as number) * ((samples[from + i] as number) - mean);
      fft.realTransform(out, part);
      // the density at half the rate stands once, all others for both signs of the frequency
      for (let k = 1; k <= length / 2; k++) {
        const squared = (out[2 * k] as number) ** 2 + (out[2 * k + 1] as number) ** 2;
        density[k - 1] = (density[k - 1] as number) + ((k === length / 2 ? 1 : 2) * squared) / (rate * power);
      }
      parts += 1;
    }
  if (parts === 0) return undefined;
  return {
    frequency: Float64Array.from(density, (_, k) => ((k + 1) * rate) / length),
    density: density.map((sum) => sum / parts),
    parts,
    freedom: (2 * parts) / (1 + (2 * (parts - 1)) / parts / 36),
  };
}

/**
 * Factors by which the true density may lie below and above an averaged one.
 * Source: χ² of averaged periodograms, any text on spectral analysis (D. Percival, A. Walden).
 */
export function densityInterval(
  freedom: number,
  confidence = 0.95,
): { readonly low: number; readonly high: number } {
  const beyond = (1 - confidence) / 2;
  return {
    low: freedom / chiSquaredQuantile(1 - beyond, freedom),
    high: freedom / chiSquaredQuantile(beyond, freedom),
  };
}
