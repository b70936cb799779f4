import { describe, expect, it } from 'vitest';
import { dynamicLoadCoefficient } from '../../sim/report/measures/dynamic-load.ts';

/** A load of `mean` N with sines on it, sampled over whole periods. */
function loads(
  mean: number,
  sines: readonly { readonly amplitude: number; readonly cycles: number; readonly phase: number }[],
  samples: number,
): Float64Array {
  return Float64Array.from({ length: samples }, (_, i) =>
    sines.reduce(
      (sum, s) => sum + s.amplitude * Math.sin((2 * Math.PI * s.cycles * i) / samples + s.phase),
      mean,
    ),
  );
}

describe('dynamic load coefficient: standard deviation over mean wheel load', () => {
  // Definition: Sweatman 1983, A study of dynamic wheel forces in axle group suspensions of heavy vehicles, Australian
  // Road Research Board (from memory); the same ratio is given for measured loads by Gyenes, Mitchell and Phillips,
  // Dynamic pavement loads and tests of road-friendliness for heavy vehicle suspensions (Transport Research
  // Laboratory), in whose summary it is the standard deviation as a share of the static load.

  it('is amplitude / (√2 · mean) for a sine: 6 N on 20 N give 0.2121', () => {
    // Rectified mean square of a sine is amplitude²/2: 6/(1.41421356·20) = 0.21213203, by hand. Sampled over whole
    // periods the sum is exact; what is left is rounding.
    expect(dynamicLoadCoefficient(loads(20, [{ amplitude: 6, cycles: 7, phase: 0.3 }], 960))).toBeCloseTo(
      0.21213203,
      8,
    );
  });

  it('does not change when all loads are scaled, as from a model to its full size', () => {
    const model = loads(20, [{ amplitude: 6, cycles: 5, phase: 1 }], 480);
    // Froude's rule at 1:16: forces grow with the cube of the scale.
    expect(dynamicLoadCoefficient(model.map((load) => load * 16 ** 3))).toBeCloseTo(
      dynamicLoadCoefficient(model) ?? Number.NaN,
      12,
    );
  });

  it('is 0.231 for the white-noise quarter car on a class C road at 20 m/s, within what was measured on trucks', () => {
    // Sprung 317.5 kg, unsprung 45.4 kg, 22000 N/m, 192000 N/m, 1500 N·s/m; one-sided road spectrum 256e-6 m³ at 0.1
    // cycle/m, exponent 2 (ISO 8608). Closed form of the tyre force (white-noise quarter car, e.g. Hac and Youn, from memory):
    // 826.78 N on a mean of 362.9 kg · 9.81 m/s² = 3560.0 N.
    const [ms, mu, ks, kt, c, speed, roughness, n0] = [317.5, 45.4, 22000, 192000, 1500, 20, 256e-6, 0.1];
    const mean = (ms + mu) * 9.81;
    // Amplitude of the tyre force for a road wave of 1 m at angular frequency w: two-mass model in the frequency domain.
    const force = (w: number): number => {
      const coupling = { re: ks, im: c * w };
      const sprung = { re: ks - ms * w * w, im: c * w };
      const unsprung = { re: ks + kt - mu * w * w, im: c * w };
      const determinant = {
        re: sprung.re * unsprung.re - sprung.im * unsprung.im - (coupling.re ** 2 - coupling.im ** 2),
        im: sprung.re * unsprung.im + sprung.im * unsprung.re - 2 * coupling.re * coupling.im,
      };
      // Force = kt · (road − wheel), wheel = kt · sprung / determinant.
      const size = determinant.re ** 2 + determinant.im ** 2;
      const wheel = {
        re: (kt * (sprung.re * determinant.re + sprung.im * determinant.im)) / size,
        im: (kt * (sprung.im * determinant.re - sprung.re * determinant.im)) / size,
      };
      return kt * Math.hypot(1 - wheel.re, wheel.im);
    };
    // 10 s of road in lines of 0.1 Hz from 0.2 to 200 Hz: 0.01 to 10 cycle/m, which carry 0.70 % less root mean square
    // than the white noise of the closed form. Each line is a sine with the variance of its band.
    const seconds = 10;
    const sines = Array.from({ length: 1999 }, (_, i) => {
      const cycles = i + 2;
      const density = roughness * (cycles / seconds / speed / n0) ** -2;
      const road = Math.sqrt((2 * density) / (seconds * speed));
      return { amplitude: road * force((2 * Math.PI * cycles) / seconds), cycles, phase: 2.4 * i * i };
    });
    const got = dynamicLoadCoefficient(loads(mean, sines, 4096)) ?? Number.NaN;
    // 0.2 %: lines of 0.1 Hz under a resonance 0.6 Hz wide, and the last digit of the 0.70 %.
    expect(Math.abs(got / ((826.78 * (1 - 0.007)) / 3560.0) - 1)).toBeLessThan(0.002);
    // Gyenes, Mitchell and Phillips: standard deviations are typically 10 to 30 % of static loads.
    expect(got).toBeGreaterThan(0.1);
    expect(got).toBeLessThan(0.3);
  });
});
