import type { Span } from './layout.ts';
import { faces } from './palette.ts';

/** Type sizes on charts, px. */
export const type = {
  figures: `400 11px ${faces.mono}`,
  words: `400 12px ${faces.sans}`,
  small: `500 10px ${faces.mono}`,
} as const;

/** A hatched tile in two colours for `createPattern`, drawn for this pixel ratio. */
export function hatchTile(colour: string, stroke: string, ratio: number, spacing = 5): HTMLCanvasElement {
  const side = Math.round(spacing * ratio);
  const tile = document.createElement('canvas');
  tile.width = side;
  tile.height = side;
  const draw = tile.getContext('2d');
  if (draw === null) return tile;
  draw.fillStyle = colour;
  draw.fillRect(0, 0, side, side);
  draw.strokeStyle = stroke;
  draw.lineWidth = 1.3 * ratio;
  draw.beginPath();
  for (const shift of [-side, 0, side]) {
    draw.moveTo(shift - ratio, side + ratio);
    draw.lineTo(shift + side + ratio, -ratio);
  }
  draw.stroke();
  return tile;
}

/** Hairline from (x0, y0) to (x1, y1), on the middle of the pixel. */
export function hairline(
  draw: CanvasRenderingContext2D,
  x0: number,
  y0: number,
  x1: number,
  y1: number,
): void {
  draw.beginPath();
  draw.moveTo(Math.round(x0) + 0.5, Math.round(y0) + 0.5);
  draw.lineTo(Math.round(x1) + 0.5, Math.round(y1) + 0.5);
  draw.stroke();
}

/** Words that fit a width, cut with an ellipsis where they do not. The font has to be set before. */
export function fitted(draw: CanvasRenderingContext2D, words: string, width: number): string {
  if (draw.measureText(words).width <= width) return words;
  let end = words.length;
  while (end > 1 && draw.measureText(`${words.slice(0, end)}…`).width > width) end--;
  return `${words.slice(0, end).trimEnd()}…`;
}

/** Stretch of an axis as a share of a span, for marks: at least `least` px wide, centred on what it stands for. */
export function widened(span: Span, least: number): Span {
  const spare = least - (span.to - span.from);
  return spare > 0 ? { from: span.from - spare / 2, to: span.to + spare / 2 } : span;
}
