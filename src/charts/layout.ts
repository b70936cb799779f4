/**
 * The plotting column: scene, bands, strips and timeline leave the same gutters, so that a station lies on the same
 * pixel in all of them. CSS px.
 */
export const GUTTER = { left: 88, right: 24 } as const;

/** Heights, CSS px: station ruler at the foot of the scene, gap between bands, row of lift marks, gap between strips, time ruler. */
export const HEIGHT = { ruler: 28, bandGap: 4, marks: 16, stripGap: 16, timeRuler: 24 } as const;

/** Height of one band where there are so many, CSS px: sixteen of them still fit under a scene. */
export function bandHeight(count: number): number {
  if (count <= 4) return 26;
  return count <= 8 ? 19 : 14;
}

/** Height of one strip in a window this high, CSS px: the scene above gets what a low window has to spare. */
export function stripHeight(windowHeight: number): number {
  return Math.min(132, Math.max(54, Math.round(windowHeight * 0.085)));
}

/** Stretch of an axis that is in sight: station m or time s. */
export interface Span {
  readonly from: number;
  readonly to: number;
}

/** Width of the plotting column for a picture this wide, px; at least 1. */
export function plotWidth(width: number): number {
  return Math.max(1, width - GUTTER.left - GUTTER.right);
}

/** Pixel (from the picture's left edge) of a value on the shared axis. */
export function toPixel(value: number, span: Span, width: number): number {
  return GUTTER.left + ((value - span.from) / (span.to - span.from)) * plotWidth(width);
}

/** Value on the shared axis at a pixel: the inverse of `toPixel`. */
export function fromPixel(pixel: number, span: Span, width: number): number {
  return span.from + ((pixel - GUTTER.left) / plotWidth(width)) * (span.to - span.from);
}
