import type { Vec2 } from '../../../shared/geometry/vec.ts';
import { numberOf, shareColour } from '../../charts/colour.ts';
import type { Palette } from '../../charts/palette.ts';
import { type Tick, ticksOf } from '../../charts/ticks.ts';
import type { PivotMap } from '../pivotMap.ts';
import { type Grid, gridOf, holdsPadded } from './grid.ts';
import { type Isoline, isolines } from './isolines.ts';

/** About so many bands of colour from the least to the greatest value. */
const BANDS = 8;

/** A line of equal value with its figure. */
export interface Contour {
  readonly level: number;
  readonly words: string;
  readonly lines: readonly Isoline[];
}

/** A pivot map worked out for drawing, in drawn metres: independent of scale and place of the picture. */
export interface MapChart {
  readonly map: PivotMap;
  readonly grid: Grid;
  /** Least and greatest value; absent without any answer. */
  readonly range?: readonly [number, number];
  /** Levels between the bands, ascending. */
  readonly levels: readonly number[];
  /** Colour of each band, 0xrrggbb: one more than levels. */
  readonly colours: readonly number[];
  readonly contours: readonly Contour[];
  /** Outlines of where all criteria hold; empty when nowhere, or when there are no criteria. */
  readonly region: readonly Isoline[];
  /** A place well inside the largest part of that region, drawn. */
  readonly inside?: Vec2;
  readonly from: Vec2;
  readonly to: Vec2;
}

/** Least and greatest value of a grid; undefined when there is no answer anywhere. */
function rangeOf({ values }: Grid): readonly [number, number] | undefined {
  let least = Number.POSITIVE_INFINITY;
  let most = Number.NEGATIVE_INFINITY;
  for (const value of values) {
    if (Number.isNaN(value)) continue;
    least = Math.min(least, value);
    most = Math.max(most, value);
  }
  return least <= most ? [least, most] : undefined;
}

/** Colour of a plain value, 0 … 1 of the range: paper to soft, so more of it is more ink. */
function plainColour(t: number, palette: Palette): number {
  const from = numberOf(palette.neutral);
  const to = numberOf(palette.soft);
  const k = Math.min(1, Math.max(0, t)) * 0.85;
  const part = (shift: number) =>
    Math.round(((from >> shift) & 255) * (1 - k) + ((to >> shift) & 255) * k) << shift;
  return part(16) | part(8) | part(0);
}

/** Colours of the bands between levels: each that of its middle. */
function coloursOf(
  levels: readonly number[],
  [least, most]: readonly [number, number],
  map: PivotMap,
  palette: Palette,
): number[] {
  const edges = [least, ...levels, most];
  return edges.slice(1).map((edge, i) => {
    const middle = (edge + (edges[i] as number)) / 2;
    if (map.scale === 'share') return shareColour(middle, palette);
    return plainColour(most > least ? (middle - least) / (most - least) : 0.5, palette);
  });
}

/** Steps to the nearest place where not all criteria hold, by two sweeps; the farthest one lies well inside. */
function deepest(grid: Grid): Vec2 | undefined {
  const { columns, rows, holds, x0, z0, dx, dz } = grid;
  const depth = new Float64Array(columns * rows);
  const at = (c: number, r: number) =>
    c < 0 || r < 0 || c >= columns || r >= rows ? 0 : (depth[r * columns + c] as number);
  let best = -1;
  for (let r = 0; r < rows; r++)
    for (let c = 0; c < columns; c++)
      if ((holds[r * columns + c] as number) >= 0.5)
        depth[r * columns + c] = 1 + Math.min(at(c - 1, r), at(c, r - 1), at(c - 1, r - 1), at(c + 1, r - 1));
  for (let r = rows - 1; r >= 0; r--)
    for (let c = columns - 1; c >= 0; c--) {
      const i = r * columns + c;
      if (!((holds[i] as number) >= 0.5)) continue;
      const back = 1 + Math.min(at(c + 1, r), at(c, r + 1), at(c + 1, r + 1), at(c - 1, r + 1));
      depth[i] = Math.min(depth[i] as number, back);
      if (best < 0 || (depth[i] as number) > (depth[best] as number)) best = i;
    }
  return best < 0 ? undefined : { x: x0 + (best % columns) * dx, z: z0 + Math.floor(best / columns) * dz };
}

/** Round levels strictly between least and greatest. */
function ticksWithin([least, most]: readonly [number, number], { shown }: PivotMap): readonly Tick[] {
  return most > least
    ? ticksOf(least, most, BANDS, shown).filter(({ value }) => value > least && value < most)
    : [];
}

/** A line kept within the field: an outline that is closed beyond its edge runs along the edge. */
function clamped(line: Isoline, from: Vec2, to: Vec2): Isoline {
  return line.map((v, i) =>
    i % 2 === 0 ? Math.min(to.x, Math.max(from.x, v)) : Math.min(to.z, Math.max(from.z, v)),
  );
}

/** Works out a map for drawing; undefined while it has no tiles. */
export function mapChart(map: PivotMap, palette: Palette): MapChart | undefined {
  const grid = gridOf(map.tiles);
  if (grid === undefined) return undefined;
  const range = rangeOf(grid);
  const ticks = range === undefined ? [] : ticksWithin(range, map);
  const levels = ticks.map((t) => t.value);
  const inside = map.criteria ? deepest(grid) : undefined;
  const from = { x: grid.x0, z: grid.z0 };
  const to = { x: grid.x0 + (grid.columns - 1) * grid.dx, z: grid.z0 + (grid.rows - 1) * grid.dz };
  return {
    map,
    grid,
    ...(range === undefined ? {} : { range }),
    levels,
    colours: range === undefined ? [] : coloursOf(levels, range, map, palette),
    contours: ticks.map(({ value, label }) => ({
      level: value,
      words: `${label} ${map.shown.unit}`.trim(),
      lines: isolines(grid, value),
    })),
    region: inside === undefined ? [] : isolines(holdsPadded(grid), 0.5).map((l) => clamped(l, from, to)),
    ...(inside === undefined ? {} : { inside }),
    from,
    to,
  };
}
