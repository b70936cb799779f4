import { describe, expect, it } from 'vitest';
import {
  cssOf,
  numberOf,
  oklab,
  RAMP_STEPS,
  rampAt,
  shareColour,
  shareGradient,
  shareRamp,
} from '../../../src/charts/colour.ts';
import { type Palette, palettes } from '../../../src/charts/palette.ts';

const themes = [
  ['light', palettes.light],
  ['dark', palettes.dark],
] as const;

/**
 * Machado, Oliveira, Fernandes, 'A physiologically-based model for simulation of color vision deficiency', IEEE TVCG 15
 * (2009), full severity, on linear sRGB; figures from memory, agreed with several public copies.
 */
const deficiencies = {
  'full colour vision': [1, 0, 0, 0, 1, 0, 0, 0, 1],
  protanopia: [0.152286, 1.052583, -0.204868, 0.114503, 0.786281, 0.099216, -0.003882, -0.048116, 1.051998],
  deuteranopia: [0.367322, 0.860646, -0.227968, 0.280085, 0.672501, 0.047413, -0.01182, 0.04294, 0.968881],
  tritanopia: [1.255528, -0.076749, -0.178779, -0.078411, 0.930809, 0.147602, 0.004733, 0.691367, 0.3039],
};

function linear(part: number): number {
  const c = part / 255;
  return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
}

function encoded(light: number): number {
  const c = Math.min(1, Math.max(0, light));
  return Math.round(255 * (c <= 0.0031308 ? 12.92 * c : 1.055 * c ** (1 / 2.4) - 0.055));
}

function parts(colour: number): [number, number, number] {
  return [(colour >> 16) & 255, (colour >> 8) & 255, colour & 255];
}

/** A colour as it is seen with a deficiency. */
function seen(colour: number, matrix: readonly number[]): number {
  const rgb = parts(colour).map(linear);
  const out = [0, 1, 2].map((row) =>
    encoded([0, 1, 2].reduce((sum, k) => sum + (matrix[3 * row + k] ?? 0) * (rgb[k] ?? 0), 0)),
  );
  return ((out[0] ?? 0) << 16) | ((out[1] ?? 0) << 8) | (out[2] ?? 0);
}

function apart(a: number, b: number): number {
  const p = oklab(a);
  const q = oklab(b);
  return Math.hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]);
}

/** Contrast of two colours by WCAG 2.2, 'relative luminance'. */
function contrast(a: string, b: string): number {
  const light = (css: string) => {
    const [r, g, bl] = parts(numberOf(css)).map(linear) as [number, number, number];
    return 0.2126 * r + 0.7152 * g + 0.0722 * bl + 0.05;
  };
  return Math.max(light(a), light(b)) / Math.min(light(a), light(b));
}

describe.each(themes)('the load scale in the %s theme', (_theme, palette: Palette) => {
  it('has its stops where the palette says, and is clamped at both ends', () => {
    expect(cssOf(shareColour(0, palette))).toBe(palette.low);
    expect(cssOf(shareColour(1, palette))).toBe(palette.neutral);
    expect(cssOf(shareColour(2, palette))).toBe(palette.high);
    expect(shareColour(-3, palette)).toBe(shareColour(0, palette));
    expect(shareColour(9, palette)).toBe(shareColour(2, palette));
  });

  it('is neutral where there is no load to compare with', () => {
    expect(cssOf(shareColour(Number.NaN, palette))).toBe(palette.neutral);
    expect(rampAt(shareRamp(palette), Number.NaN)).toBe(rampAt(shareRamp(palette), 1));
  });

  it('never jumps: neighbouring hundredths look nearly the same', () => {
    const ramp = shareRamp(palette);
    expect(ramp).toHaveLength(RAMP_STEPS);
    // A just noticeable difference is about 0.02 in Oklab.
    for (let i = 1; i < RAMP_STEPS; i++)
      expect(apart(ramp[i] as number, ramp[i - 1] as number)).toBeLessThan(0.02);
  });

  // Five just noticeable differences: told apart also in thin bands.
  it.each(Object.entries(deficiencies))('tells light, standing and heavy apart with %s', (_name, matrix) => {
    const at = (share: number) => seen(shareColour(share, palette), matrix);
    expect(apart(at(0), at(1))).toBeGreaterThan(0.1);
    expect(apart(at(2), at(1))).toBeGreaterThan(0.1);
    expect(apart(at(0), at(2))).toBeGreaterThan(0.1);
    expect(apart(at(0.5), at(1.5))).toBeGreaterThan(0.1);
  });

  it('writes text in colours of at least 4.5 : 1 on paper, panel and earth', () => {
    for (const ground of [palette.paper, palette.panel, palette.earth])
      for (const text of [palette.ink, palette.soft, palette.accent, palette.lowInk])
        expect(contrast(text, ground)).toBeGreaterThan(4.5);
  });

  it('gives the legend the same colours', () => {
    const gradient = shareGradient(palette);
    expect(gradient).toContain(`${palette.low} 0%`);
    expect(gradient).toContain(`${palette.neutral} 50%`);
    expect(gradient).toContain(`${palette.high} 100%`);
  });
});

it('converts to Oklab as its source does', () => {
  // B. Ottosson 2020: white is (1, 0, 0); CSS Color 4 gives red as 62.796 % lightness, a 0.22486, b 0.12585.
  expect(oklab(0xffffff)[0]).toBeCloseTo(1, 5);
  const [l, a, b] = oklab(0xff0000);
  expect(l).toBeCloseTo(0.62796, 4);
  expect(a).toBeCloseTo(0.22486, 4);
  expect(b).toBeCloseTo(0.12585, 4);
});
