import { cssOf, numberOf, oklab, shareColour } from '../charts/colour.ts';
import type { Palette } from '../charts/palette.ts';

/** Lightness (Oklab) from which dark lines are read better on a colour than bright ones. */
const BRIGHT = 0.6;

/** Colours of a part: its plate, and lines on it. */
export interface Ink {
  readonly plate: string;
  readonly line: string;
}

/**
 * Colour of a use on the app's own scale: neutral at nothing, violet at the limit, and the scale's orange past it. Nothing
 * known: paper, to be hatched.
 */
export function inkOf(use: number, palette: Palette): Ink {
  if (Number.isNaN(use)) return { plate: palette.paper, line: palette.ink };
  const colour = use > 1 ? numberOf(palette.low) : shareColour(1 + Math.min(1, Math.max(0, use)), palette);
  const [lightness] = oklab(colour);
  return { plate: cssOf(colour), line: lightness > BRIGHT ? '#15181b' : '#ffffff' };
}

/** '62 %', 'unknown'; much more than the limit is told as that. */
export function shareWords(use: number | null): string {
  if (use === null || Number.isNaN(use)) return 'unknown';
  if (use > 9.99) return '> 999 %';
  // Close to the limit the digits tell on which side of it.
  return `${(100 * use).toFixed(Math.abs(use - 1) < 0.005 && use !== 1 ? 1 : 0)} %`;
}
