import type { Palette } from './palette.ts';

type Triple = readonly [number, number, number];

/** sRGB part 0–255 to linear light 0–1 (IEC 61966-2-1). */
function linear(part: number): number {
  const c = part / 255;
  return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
}

/** Linear light 0–1 to sRGB part 0–255, rounded and clamped (IEC 61966-2-1). */
function encoded(light: number): number {
  const c = Math.min(1, Math.max(0, light));
  return Math.round(255 * (c <= 0.0031308 ? 12.92 * c : 1.055 * c ** (1 / 2.4) - 0.055));
}

/** `#rrggbb` as a number 0xrrggbb. */
export function numberOf(css: string): number {
  return Number.parseInt(css.slice(1), 16);
}

/** 0xrrggbb as `#rrggbb`. */
export function cssOf(colour: number): string {
  return `#${colour.toString(16).padStart(6, '0')}`;
}

/** Oklab of a colour: lightness, green–red, blue–yellow. Source: B. Ottosson, 'A perceptual color space', 2020. */
export function oklab(colour: number): Triple {
  const r = linear((colour >> 16) & 255);
  const g = linear((colour >> 8) & 255);
  const b = linear(colour & 255);
  const l = Math.cbrt(0.4122214708 * r + 0.5363325363 * g + 0.0514459929 * b);
  const m = Math.cbrt(0.2119034982 * r + 0.6806995451 * g + 0.1073969566 * b);
  const s = Math.cbrt(0.0883024619 * r + 0.2817188376 * g + 0.6299787005 * b);
  return [
    0.2104542553 * l + 0.793617785 * m - 0.0040720468 * s,
    1.9779984951 * l - 2.428592205 * m + 0.4505937099 * s,
    0.0259040371 * l + 0.7827717662 * m - 0.808675766 * s,
  ];
}

/** Colour of an Oklab triple, clamped into sRGB. Same source. */
function fromOklab([L, A, B]: Triple): number {
  const l = (L + 0.3963377774 * A + 0.2158037573 * B) ** 3;
  const m = (L - 0.1055613458 * A - 0.0638541728 * B) ** 3;
  const s = (L - 0.0894841775 * A - 1.291485548 * B) ** 3;
  const r = encoded(4.0767416621 * l - 3.3077115913 * m + 0.2309699292 * s);
  const g = encoded(-1.2684380046 * l + 2.6097574011 * m - 0.3413193965 * s);
  const b = encoded(-0.0041960863 * l - 0.7034186147 * m + 1.707614701 * s);
  return (r << 16) | (g << 8) | b;
}

/**
 * Colour of a share of the standing load: orange when light, neutral at the standing load, violet when heavy. Clamped to
 * 0…2; equal steps of share look equally far apart between the stops (mixed in Oklab). A share that isn't a number is
 * neutral. Returns 0xrrggbb.
 */
export function shareColour(share: number, palette: Palette): number {
  const stops = [palette.low, palette.lowMid, palette.neutral, palette.highMid, palette.high];
  const at = Number.isNaN(share) ? 2 : Math.min(2, Math.max(0, share)) * 2;
  const i = Math.min(3, Math.floor(at));
  const from = oklab(numberOf(stops[i] as string));
  const to = oklab(numberOf(stops[i + 1] as string));
  const t = at - i;
  return fromOklab(
    [0, 1, 2].map((k) => (from[k] as number) * (1 - t) + (to[k] as number) * t) as unknown as Triple,
  );
}

/** Number of steps of a ramp: one per hundredth of a standing load. */
export const RAMP_STEPS = 201;

/** The whole scale as a table, 0xrrggbb: entry i is the colour of share i / 100. */
export function shareRamp(palette: Palette): Uint32Array {
  return Uint32Array.from({ length: RAMP_STEPS }, (_, i) => shareColour(i / 100, palette));
}

/** Entry of a ramp for a share; one that isn't a number gives the neutral colour. */
export function rampAt(ramp: Uint32Array, share: number): number {
  const i = Number.isNaN(share) ? 100 : Math.round(Math.min(2, Math.max(0, share)) * 100);
  return ramp[i] as number;
}

/** The scale from left (0) to right (2) as a CSS gradient, for the legend. */
export function shareGradient(palette: Palette): string {
  const stops = Array.from({ length: 21 }, (_, i) => `${cssOf(shareColour(i / 10, palette))} ${i * 5}%`);
  return `linear-gradient(to right, ${stops.join(', ')})`;
}
