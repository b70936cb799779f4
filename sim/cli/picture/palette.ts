import { scaleLinear } from 'd3-scale';

/** Colours of a sheet of paper: ink, its shades, and one accent each for nothing else. */
export const ink = {
  paper: '#fffefa',
  text: '#1f2328',
  faint: '#6a6a68',
  rule: '#d8d6cf',
  earth: '#b9b5a9',
  off: '#e66101',
} as const;

/**
 * Colour of a load share: orange when light, the paper's grey at the standing load, violet when heavy; clamped at 0
 * and 2. The ends are those of the diverging pair PuOr, which colour-blind readers can tell apart
 * (C. Brewer, M. Harrower: ColorBrewer 2.0, colorbrewer2.org).
 */
export function shareColour(share: number): string {
  const scale = scaleLinear<string>()
    .domain([0, 0.5, 1, 1.5, 2])
    .range(['#e66101', '#fdb863', '#f1eee8', '#b2abd2', '#5e3c99'])
    .clamp(true);
  const [r = 0, g = 0, b = 0] = (scale(share).match(/\d+/g) ?? []).map(Number);
  return `#${[r, g, b].map((value) => value.toString(16).padStart(2, '0')).join('')}`;
}
