import type { MapTile } from '../pivotMap.ts';

/** All tiles of a map on one even grid, as fine as the finest of them. Nodes in rows along z, columns along x. */
export interface Grid {
  /** Drawn place of the first node and distance of neighbours, m. */
  readonly x0: number;
  readonly z0: number;
  readonly dx: number;
  readonly dz: number;
  readonly columns: number;
  readonly rows: number;
  /** NaN where there is no answer. */
  readonly values: Float64Array;
  /** 1 where all criteria hold, 0 where not; the edge lies where it passes ½. */
  readonly holds: Float64Array;
}

const EMPTY = Number.NaN;

/** Nodes along one side of the whole. */
function nodesAlong(from: number, to: number, step: number): number {
  return step > 0 ? Math.max(2, Math.round((to - from) / step) + 1) : 2;
}

/** Grid place of a drawn coordinate within a tile's side, in steps of the tile; NaN when it lies outside. */
function within(at: number, from: number, to: number, nodes: number): number {
  const t = ((at - from) / (to - from)) * (nodes - 1);
  return t >= -1e-6 && t <= nodes - 1 + 1e-6 ? Math.min(nodes - 1, Math.max(0, t)) : EMPTY;
}

/**
 * Value between four nodes, straight along both sides. Next to a node without an answer the nearest node counts, so that
 * a place without an answer takes half a step of its neighbours and not more.
 */
export function between(
  values: ArrayLike<number>,
  columns: number,
  rows: number,
  u: number,
  v: number,
): number {
  const c = Math.min(columns - 2, Math.floor(u));
  const r = Math.min(rows - 2, Math.floor(v));
  const i = r * columns + c;
  const [s, t] = [u - c, v - r];
  const a = values[i] as number;
  const b = values[i + 1] as number;
  const d = values[i + columns] as number;
  const e = values[i + columns + 1] as number;
  const mixed = (a * (1 - s) + b * s) * (1 - t) + (d * (1 - s) + e * s) * t;
  if (!Number.isNaN(mixed)) return mixed;
  return values[(t < 0.5 ? i : i + columns) + (s < 0.5 ? 0 : 1)] as number;
}

/** The last tile that has a place, and the place in its steps. */
function tileAt(tiles: readonly MapTile[], x: number, z: number) {
  for (let k = tiles.length - 1; k >= 0; k--) {
    const tile = tiles[k] as MapTile;
    const u = within(x, tile.from.x, tile.to.x, tile.columns);
    const v = within(z, tile.from.z, tile.to.z, tile.rows);
    if (!Number.isNaN(u) && !Number.isNaN(v)) return { tile, u, v };
  }
  return undefined;
}

/** Lays all tiles on one grid; undefined when there are none. */
export function gridOf(tiles: readonly MapTile[]): Grid | undefined {
  if (tiles.length === 0) return undefined;
  const x0 = Math.min(...tiles.map((t) => t.from.x));
  const z0 = Math.min(...tiles.map((t) => t.from.z));
  const x1 = Math.max(...tiles.map((t) => t.to.x));
  const z1 = Math.max(...tiles.map((t) => t.to.z));
  const columns = nodesAlong(x0, x1, Math.min(...tiles.map((t) => (t.to.x - t.from.x) / (t.columns - 1))));
  const rows = nodesAlong(z0, z1, Math.min(...tiles.map((t) => (t.to.z - t.from.z) / (t.rows - 1))));
  const dx = (x1 - x0) / (columns - 1);
  const dz = (z1 - z0) / (rows - 1);
  const values = new Float64Array(columns * rows).fill(EMPTY);
  const holds = new Float64Array(columns * rows);
  for (let r = 0; r < rows; r++)
    for (let c = 0; c < columns; c++) {
      const found = tileAt(tiles, x0 + c * dx, z0 + r * dz);
      if (found === undefined) continue;
      const { tile, u, v } = found;
      const i = r * columns + c;
      values[i] = between(tile.values, tile.columns, tile.rows, u, v);
      const held = between(tile.holds, tile.columns, tile.rows, u, v);
      holds[i] = Number.isNaN(held) || Number.isNaN(values[i] as number) ? 0 : held;
    }
  return { x0, z0, dx, dz, columns, rows, values, holds };
}

/** The grid of what holds with a row of nodes around it where nothing holds: outlines on it are closed. */
export function holdsPadded(grid: Grid): Omit<Grid, 'holds'> {
  const columns = grid.columns + 2;
  const rows = grid.rows + 2;
  const values = new Float64Array(columns * rows);
  for (let r = 0; r < grid.rows; r++)
    for (let c = 0; c < grid.columns; c++)
      values[(r + 1) * columns + c + 1] = grid.holds[r * grid.columns + c] as number;
  return { ...grid, x0: grid.x0 - grid.dx, z0: grid.z0 - grid.dz, columns, rows, values };
}
