import type { Better } from './choice.ts';
import { settingsFor } from './knob.ts';
import { latticeOf, newColumns, type Part, rowsOf } from './lattice.ts';
import type { Stretch } from './planes.ts';
import { type Answer, Study, type StudyAsk } from './study.ts';

/** One side of a map: a knob, and so many values of it from one end to the other, both included. */
export interface Side extends Stretch {
  readonly steps: number;
}

/** What a map is drawn of. */
export interface MapAsk extends StudyAsk {
  readonly x: Side;
  readonly z: Side;
}

/** One point of a map: its column and row, the values of both knobs, SI, and what the crossing came to there. */
export interface MapPoint extends Answer {
  readonly column: number;
  readonly row: number;
  readonly x: number;
  readonly z: number;
}

/** Points of one row that were worked out together. */
export interface Tile {
  /** Level of refinement, 0 the coarsest. */
  readonly level: number;
  readonly row: number;
  readonly points: readonly MapPoint[];
}

/** Value of a knob in a column (or row) of a map. */
export function valueAt({ from, to, steps }: Side, index: number): number {
  return from + ((to - from) * index) / (steps - 1);
}

/**
 * Works a map out row by row, coarse first, no point twice. Every point is a crossing of its own that knows nothing of
 * the others, so the numbers are the same however the work is parted: each part yields its own rows.
 * @throws RangeError for a size that no map has, or a measure that does not exist
 */
export function* mapOver(ask: MapAsk, part: Part = { part: 0, of: 1 }): Generator<Tile, void, void> {
  const lattice = latticeOf(ask.x.steps, ask.z.steps);
  const study = new Study(ask);
  for (const { level, row } of rowsOf(lattice, part)) {
    const points = newColumns(lattice, level, row).map((column) => pointOf(study, ask, column, row));
    yield { level, row, points };
  }
}

function pointOf(study: Study, ask: MapAsk, column: number, row: number): MapPoint {
  const x = valueAt(ask.x, column);
  const z = valueAt(ask.z, row);
  const answer = study.at(
    settingsFor([
      { knob: ask.x.knob, to: x },
      { knob: ask.z.knob, to: z },
    ]),
  );
  return { column, row, x, z, ...answer };
}

/** The points of a map as they come in, from one worker or several. */
export class Field {
  readonly columns: number;
  readonly rows: number;
  readonly strides: readonly number[];
  readonly #points: (MapPoint | undefined)[];
  readonly #missing: number[];

  constructor({ x, z }: Pick<MapAsk, 'x' | 'z'>) {
    const lattice = latticeOf(x.steps, z.steps);
    this.columns = lattice.columns;
    this.rows = lattice.rows;
    this.strides = lattice.strides;
    this.#points = Array.from({ length: this.columns * this.rows }, () => undefined);
    this.#missing = this.strides.map((_, level) =>
      Array.from({ length: this.rows }, (__, row) => newColumns(lattice, level, row).length).reduce(
        (a, b) => a + b,
        0,
      ),
    );
  }

  add({ level, points }: Tile): void {
    for (const point of points) {
      const at = point.row * this.columns + point.column;
      if (this.#points[at] === undefined) this.#missing[level] = (this.#missing[level] as number) - 1;
      this.#points[at] = point;
    }
  }

  /** The point of a column and row, when it is there. */
  point(column: number, row: number): MapPoint | undefined {
    return this.#points[row * this.columns + column];
  }

  /** Every point that is there, row by row. */
  get points(): readonly MapPoint[] {
    return this.#points.filter((p) => p !== undefined);
  }

  /** The finest level that is there whole with all before it; −1 when not even the coarsest is. */
  get level(): number {
    const open = this.#missing.findIndex((missing) => missing > 0);
    return (open < 0 ? this.strides.length : open) - 1;
  }

  /**
   * One number per node of the finest level, row by row: those of the points where they are there, between them straight
   * lines from the finest whole level. NaN where a point has no value, and everywhere before the first level is whole.
   */
  filled(of: (point: MapPoint) => number = (p) => p.value ?? Number.NaN): Float64Array {
    const { columns, rows, level } = this;
    const values = new Float64Array(columns * rows).fill(Number.NaN);
    for (let row = 0; row < rows; row++)
      for (let column = 0; column < columns; column++) {
        const point = this.point(column, row);
        if (point !== undefined) values[row * columns + column] = of(point);
        else if (level >= 0) values[row * columns + column] = this.#between(column, row, level, of);
      }
    return values;
  }

  /** The value between four points of a whole level; that of the nearest where one of them has none. */
  #between(column: number, row: number, level: number, of: (point: MapPoint) => number): number {
    const stride = this.strides[level] as number;
    const [c0, c1, u] = bracket(column, this.columns, stride);
    const [r0, r1, v] = bracket(row, this.rows, stride);
    const at = (c: number, r: number) => of(this.point(c, r) as MapPoint);
    const below = (1 - u) * at(c0, r0) + u * at(c1, r0);
    const above = (1 - u) * at(c0, r1) + u * at(c1, r1);
    const value = (1 - v) * below + v * above;
    return Number.isNaN(value) ? at(u < 0.5 ? c0 : c1, v < 0.5 ? r0 : r1) : value;
  }

  /**
   * The best point: of those where all criteria hold, when there are any, the one with the best value; of equals the one
   * whose wheels are off the ground for the shortest time, then the nearest to the given place (shares of the sides).
   */
  best(
    better: Better,
    near: { readonly x: number; readonly z: number } = { x: 0.5, z: 0.5 },
  ): MapPoint | undefined {
    const sign = better === 'more' ? 1 : -1;
    const away = (p: MapPoint) =>
      Math.hypot(p.column / (this.columns - 1) - near.x, p.row / (this.rows - 1) - near.z);
    const isBetter = (p: MapPoint, q: MapPoint): boolean => {
      if (p.holds !== q.holds) return p.holds;
      const ahead = sign * ((p.value as number) - (q.value as number));
      if (Math.abs(ahead) > 1e-9 * Math.max(Math.abs(p.value as number), 1e-3)) return ahead > 0;
      return p.off === q.off ? away(p) < away(q) : p.off < q.off;
    };
    return this.points
      .filter((p) => p.value !== null)
      .reduce<MapPoint | undefined>(
        (best, p) => (best === undefined || isBetter(p, best) ? p : best),
        undefined,
      );
  }
}

/** Neighbours of an index on a level, and how far it lies between them, 0 to 1. */
function bracket(
  index: number,
  count: number,
  stride: number,
): [before: number, after: number, share: number] {
  const before = index === count - 1 ? index : index - (index % stride);
  const after = index === before ? before : Math.min(count - 1, before + stride);
  return [before, after, after === before ? 0 : (index - before) / (after - before)];
}
