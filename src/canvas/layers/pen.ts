import type { Graphics } from 'pixi.js';
import type { Path } from '../geometry/shapes.ts';
import type { Inks } from '../inks.ts';
import { type Ink, type Pen, type Weight, weights } from '../pen.ts';

/** Adds a path to a drawing. */
function trace(g: Graphics, path: Path): void {
  g.moveTo(path[0] as number, path[1] as number);
  for (let i = 2; i < path.length; i += 2) g.lineTo(path[i] as number, path[i + 1] as number);
}

/** Strokes polylines with any width and colour. */
export function strokeOn(g: Graphics, paths: readonly Path[], width: number, color: number, alpha = 1): void {
  for (const path of paths) trace(g, path);
  g.stroke({ width, color, alpha, cap: 'round', join: 'round' });
}

/** A pen that draws on a pixi drawing. `thicken`: factor on all weights, for large pictures. */
export function penOn(g: Graphics, inks: Inks, thicken = 1): Pen {
  return {
    stroke(paths: readonly Path[], weight: Weight, ink: Ink = 'ink') {
      strokeOn(g, paths, weights[weight] * thicken, inks.of[ink]);
    },
    fill(path: Path, ink: Ink, edge?: Weight) {
      g.poly([...path], true).fill(inks.of[ink]);
      if (edge !== undefined) {
        g.poly([...path], true).stroke({ width: weights[edge] * thicken, color: inks.of.ink, join: 'round' });
      }
    },
  };
}
