import { numberOf, shareRamp } from '../charts/colour.ts';
import { type Palette, palettes } from '../charts/palette.ts';
import type { Look } from '../solved.ts';

/** A palette as the canvas takes it: 0xrrggbb. */
export interface Inks {
  readonly palette: Palette;
  readonly ramp: Uint32Array;
  readonly of: { readonly [K in keyof Palette]: number };
}

/** The inks of a theme. */
export function inksOf(theme: Look['theme']): Inks {
  const palette = palettes[theme];
  const of = Object.fromEntries(Object.entries(palette).map(([k, css]) => [k, numberOf(css)])) as Inks['of'];
  return { palette, ramp: shareRamp(palette), of };
}
