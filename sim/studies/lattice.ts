/**
 * The nodes of a map, coarse first: level after level halves the distance between rows and columns, and the last row and
 * column belong to every level, so that each picture covers the whole map. No node belongs to two levels.
 */
export interface Lattice {
  /** Number of columns (x) and rows (z) of the finest level. */
  readonly columns: number;
  readonly rows: number;
  /** Distance between neighbours on each level, coarsest first; the last one is 1. */
  readonly strides: readonly number[];
}

/** Fewest intervals along the shorter side of the coarsest level: a first picture at once is worth more than a fine one. */
const coarsest = 2;

/** @throws RangeError for sizes that are not whole numbers from 2 to 2000 */
export function latticeOf(columns: number, rows: number): Lattice {
  for (const size of [columns, rows])
    if (!Number.isInteger(size) || size < 2 || size > 2000)
      throw new RangeError(`a map has 2 to 2000 columns and rows, not ${size}`);
  const strides = [1];
  while ((Math.min(columns, rows) - 1) / (2 * (strides[0] as number)) >= coarsest)
    strides.unshift(2 * (strides[0] as number));
  return { columns, rows, strides };
}

/** Indices below `count` that a stride reaches, with the last one. */
export function reached(count: number, stride: number): number[] {
  const indices: number[] = [];
  for (let i = 0; i < count - 1; i += stride) indices.push(i);
  indices.push(count - 1);
  return indices;
}

const isReached = (i: number, count: number, stride: number): boolean => i % stride === 0 || i === count - 1;

/** Columns of a row that are new on a level: those that no coarser level had. Empty when the row has none. */
export function newColumns({ columns, rows, strides }: Lattice, level: number, row: number): number[] {
  const stride = strides[level] as number;
  if (!isReached(row, rows, stride)) return [];
  const before = strides[level - 1];
  const old = (i: number) =>
    before !== undefined && isReached(row, rows, before) && isReached(i, columns, before);
  return reached(columns, stride).filter((i) => !old(i));
}

/** A part of a map's work: part number `part` of `of`, from 0. */
export interface Part {
  readonly part: number;
  readonly of: number;
}

/** Rows of all levels in the order in which they are worked on, dealt out one after another to the parts. */
export function* rowsOf(lattice: Lattice, { part, of }: Part): Generator<{ level: number; row: number }> {
  let dealt = 0;
  for (let level = 0; level < lattice.strides.length; level++)
    for (let row = 0; row < lattice.rows; row++) {
      if (newColumns(lattice, level, row).length === 0) continue;
      if (dealt++ % of === part) yield { level, row };
    }
}
