import { describe, expect, it } from 'vitest';
import { mapChart } from '../../../src/canvas/map/chart.ts';
import { between, gridOf } from '../../../src/canvas/map/grid.ts';
import { isolines } from '../../../src/canvas/map/isolines.ts';
import { pixelsOf } from '../../../src/canvas/map/pixels.ts';
import type { MapTile, PivotMap } from '../../../src/canvas/pivotMap.ts';
import { numberOf, shareColour } from '../../../src/charts/colour.ts';
import { palettes } from '../../../src/charts/palette.ts';

const palette = palettes.light;

/** A tile over a rectangle with the values and verdicts of two functions of place. */
function tile(
  columns: number,
  rows: number,
  value: (x: number, z: number) => number,
  holds: (x: number, z: number) => boolean = () => true,
  [x0, z0, x1, z1]: readonly [number, number, number, number] = [0, 0, 1, 1],
): MapTile {
  const nodes = Array.from({ length: columns * rows }, (_, i) => ({
    x: x0 + ((x1 - x0) * (i % columns)) / (columns - 1),
    z: z0 + ((z1 - z0) * Math.floor(i / columns)) / (rows - 1),
  }));
  return {
    from: { x: x0, z: z0 },
    to: { x: x1, z: z1 },
    columns,
    rows,
    values: nodes.map(({ x, z }) => value(x, z)),
    holds: nodes.map(({ x, z }) => (holds(x, z) ? 1 : 0)),
  };
}

function map(tiles: readonly MapTile[], more: Partial<PivotMap> = {}): PivotMap {
  return {
    body: 0,
    tiles,
    title: 'least share of the standing load',
    shown: { unit: '', factor: 1, decimals: 2 },
    scale: 'share',
    criteria: true,
    done: 1,
    ...more,
  };
}

describe('the grid of a map', () => {
  it('is as fine as its finest tile, and there takes that tile', () => {
    const coarse = tile(3, 3, () => 0);
    const fine = tile(5, 5, () => 1, undefined, [0, 0, 0.5, 0.5]);
    const grid = gridOf([coarse, fine]);
    expect([grid?.columns, grid?.rows]).toEqual([9, 9]);
    expect(grid?.values[0]).toBe(1);
    expect(grid?.values[4 * 9 + 4]).toBe(1);
    expect(grid?.values[4 * 9 + 5]).toBe(0);
  });

  it('lies straight between the nodes of a coarse tile', () => {
    const grid = gridOf([
      tile(2, 2, (x, z) => x + 2 * z),
      tile(3, 3, () => 9, undefined, [0, 0, 0.25, 0.25]),
    ]);
    // At x = ½, z = 1, of the coarse tile alone. Sums of halves are exact.
    expect(grid?.values[8 * 9 + 4]).toBe(2.5);
  });

  it('takes the nearest node beside one without an answer, so that a gap stays half a step wide', () => {
    const values = [Number.NaN, 1, 2, 3];
    expect(between(values, 2, 2, 0.2, 0.2)).toBeNaN();
    expect(between(values, 2, 2, 0.8, 0.2)).toBe(1);
  });
});

describe('lines of equal value', () => {
  const slope = gridOf([tile(5, 4, (x) => x)]);
  const hill = gridOf([tile(41, 41, (x, z) => Math.hypot(x - 0.5, z - 0.5))]);
  if (slope === undefined || hill === undefined) throw new Error('no grid');

  it('cross an even slope as one line, exactly where the value is', () => {
    const [line, ...others] = isolines(slope, 0.3);
    expect(others).toEqual([]);
    const xs = line?.filter((_, i) => i % 2 === 0) ?? [];
    const zs = line?.filter((_, i) => i % 2 === 1) ?? [];
    for (const x of xs) expect(x).toBeCloseTo(0.3, 12);
    expect(Math.max(...zs) - Math.min(...zs)).toBeCloseTo(1, 12);
  });

  it('go once round a hill and close', () => {
    const [ring, ...others] = isolines(hill, 0.3);
    expect(others).toEqual([]);
    expect(ring?.slice(0, 2)).toEqual(ring?.slice(-2));
    // Between nodes the distance is taken as straight: off by at most step² / 8r = 0.00026 at r = 0.3.
    for (let i = 0; i < (ring?.length ?? 0); i += 2) {
      const radius = Math.hypot((ring?.[i] ?? 0) - 0.5, (ring?.[i + 1] ?? 0) - 0.5);
      expect(Math.abs(radius - 0.3)).toBeLessThan(3e-4);
    }
  });

  it('tell by the middle of a cell which of two opposite corners hang together', () => {
    const saddle = (middle: number) => {
      // High corners 1, low corners 0: the level lies above or below their mean, ½.
      const grid = gridOf([tile(2, 2, (x, z) => (x === z ? 1 : 0))]);
      if (grid === undefined) throw new Error('no grid');
      return isolines(grid, middle);
    };
    // Each line cuts off a corner: high ones when the level is above the middle, low ones when it is below.
    for (const line of saddle(0.7))
      expect(Math.abs((line[0] ?? 0) + (line[2] ?? 0) - 1)).toBeCloseTo(0.7, 12);
    for (const line of saddle(0.3))
      expect(Math.abs((line[0] ?? 0) + (line[2] ?? 0) - 1)).toBeCloseTo(0.7, 12);
    const corners = (level: number) =>
      saddle(level).map(
        (l) => Math.sign((l[0] ?? 0) + (l[2] ?? 0) - 1) * Math.sign((l[1] ?? 0) + (l[3] ?? 0) - 1),
      );
    expect(corners(0.7)).toEqual([1, 1]);
    expect(corners(0.3)).toEqual([-1, -1]);
  });

  it('keep out of cells without an answer', () => {
    const gap = gridOf([tile(5, 5, (x, z) => (x === 0.5 && z === 0.5 ? Number.NaN : x))]);
    if (gap === undefined) throw new Error('no grid');
    const lines = isolines(gap, 0.4);
    expect(lines).toHaveLength(2);
  });
});

describe('the picture of a map', () => {
  it('colours load shares as wheels are coloured, by the middle of each band', () => {
    const chart = mapChart(map([tile(11, 11, (x) => x)]), palette);
    // Least 0, greatest 1: levels 0.1 … 0.9, so the first band's middle is 0.05.
    expect(chart?.levels[0]).toBeCloseTo(0.1, 12);
    expect(chart?.colours[0]).toBe(shareColour(0.05, palette));
    expect(chart?.colours).toHaveLength((chart?.levels.length ?? 0) + 1);
  });

  it('writes every level with as many decimals as it takes to tell it from the next', () => {
    const chart = mapChart(map([tile(5, 5, (x) => 0.5 + 0.02 * x)]), palette);
    const words = chart?.contours.map((c) => c.words) ?? [];
    expect(new Set(words).size).toBe(words.length);
    expect(words.length).toBeGreaterThan(3);
  });

  it('outlines where all criteria hold, closed along the edge of the field, and finds a place well inside', () => {
    const chart = mapChart(
      map([
        tile(
          21,
          21,
          (x) => x,
          (x) => x < 0.42,
        ),
      ]),
      palette,
    );
    const [outline, ...others] = chart?.region ?? [];
    expect(others).toEqual([]);
    expect(outline?.slice(0, 2)).toEqual(outline?.slice(-2));
    const xs = outline?.filter((_, i) => i % 2 === 0) ?? [];
    expect(Math.min(...xs)).toBe(0);
    // Halfway between the last node that holds (0.40) and the first that does not (0.45).
    expect(Math.max(...xs)).toBeCloseTo(0.425, 12);
    expect(chart?.inside?.x).toBeGreaterThan(0.05);
    expect(chart?.inside?.x).toBeLessThan(0.4);
  });

  it('outlines nothing where nothing is asked, and nothing where nothing holds', () => {
    const everywhere = tile(5, 5, (x) => x);
    expect(mapChart(map([everywhere], { criteria: false }), palette)?.region).toEqual([]);
    const nowhere = tile(
      5,
      5,
      (x) => x,
      () => false,
    );
    expect(mapChart(map([nowhere]), palette)?.region).toEqual([]);
  });

  it('is empty as long as there are no tiles, and has no bands where all answers are the same or missing', () => {
    expect(mapChart(map([]), palette)).toBeUndefined();
    expect(mapChart(map([tile(3, 3, () => 0.5)]), palette)?.levels).toEqual([]);
    expect(mapChart(map([tile(3, 3, () => Number.NaN)]), palette)?.range).toBeUndefined();
  });

  it('puts high places at the top, and strokes where there is no answer', () => {
    const chart = mapChart(map([tile(11, 11, (_, z) => (z > 0.75 ? Number.NaN : z < 0.4 ? 0 : 1))]), palette);
    if (chart === undefined) throw new Error('no chart');
    const { width, height, data } = pixelsOf(chart, palette);
    const at = (x: number, y: number) => {
      const i = 4 * (y * width + x);
      return {
        colour: ((data[i] ?? 0) << 16) | ((data[i + 1] ?? 0) << 8) | (data[i + 2] ?? 0),
        alpha: data[i + 3],
      };
    };
    expect(at(5, height - 1)).toEqual({ colour: chart.colours[0], alpha: 255 });
    const top = Array.from({ length: width }, (_, x) => at(x, 0));
    expect(top.some((p) => p.alpha === 0)).toBe(true);
    expect(top.some((p) => p.alpha === 255 && p.colour === numberOf(palette.hatch))).toBe(true);
  });
});
