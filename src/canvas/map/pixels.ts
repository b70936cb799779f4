import { numberOf } from '../../charts/colour.ts';
import type { Palette } from '../../charts/palette.ts';
import type { MapChart } from './chart.ts';
import { between } from './grid.ts';

/** Longer side of a map's picture, px: sharp up to the largest that a map is drawn. */
const LONGEST = 480;

/** Distance of the strokes that mark places without an answer, px. */
const HATCH = 9;

/** A picture in rows from the top, four bytes a pixel. */
export interface Pixels {
  readonly width: number;
  readonly height: number;
  readonly data: Uint8ClampedArray<ArrayBuffer>;
}

/** Size of the picture of a map: its own proportions. */
function sizeOf({ from, to }: MapChart): { width: number; height: number } {
  const w = Math.max(to.x - from.x, 1e-9);
  const h = Math.max(to.z - from.z, 1e-9);
  const k = LONGEST / Math.max(w, h);
  return { width: Math.max(2, Math.round(w * k)), height: Math.max(2, Math.round(h * k)) };
}

/** The bands of a map as pixels, the top row first; slanting strokes where there is no answer. */
export function pixelsOf(chart: MapChart, palette: Palette): Pixels {
  const { grid, levels, colours } = chart;
  const { width, height } = sizeOf(chart);
  const data = new Uint8ClampedArray(width * height * 4);
  const hatch = numberOf(palette.hatch);
  const put = (i: number, colour: number, alpha: number) => {
    data[i] = (colour >> 16) & 255;
    data[i + 1] = (colour >> 8) & 255;
    data[i + 2] = colour & 255;
    data[i + 3] = alpha;
  };
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const u = (x / (width - 1)) * (grid.columns - 1);
      const v = (1 - y / (height - 1)) * (grid.rows - 1);
      const value = between(grid.values, grid.columns, grid.rows, u, v);
      const i = 4 * (y * width + x);
      if (Number.isNaN(value)) {
        if ((x + y) % HATCH < 2) put(i, hatch, 255);
        continue;
      }
      let band = 0;
      while (band < levels.length && value >= (levels[band] as number)) band++;
      put(i, colours[band] as number, 255);
    }
  return { width, height, data };
}
