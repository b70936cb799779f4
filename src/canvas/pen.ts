import type { Path } from './geometry/shapes.ts';

/** Weights of lines: what carries load is drawn stronger than what only covers. Widths in px. */
export const weights = { load: 3, firm: 1.75, line: 1.25, thin: 0.85 } as const;
export type Weight = keyof typeof weights;

/** Inks that things may be drawn in; the picture knows their colours in each theme. */
export type Ink = 'ink' | 'soft' | 'faint' | 'paper' | 'cover' | 'hatch';

/** What element drawings draw with. They never see the canvas, so they are tested without one. */
export interface Pen {
  /** Strokes polylines. */
  stroke(paths: readonly Path[], weight: Weight, ink?: Ink): void;
  /** Fills a closed path, and strokes its edge if a weight is given. */
  fill(path: Path, ink: Ink, edge?: Weight): void;
}
