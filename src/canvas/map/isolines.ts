import type { Grid } from './grid.ts';

/** A line of equal value: [x, z, x, z…] drawn, m. Closed ones end where they begin. */
export type Isoline = readonly number[];

type Field = Omit<Grid, 'holds'>;

/** Sides of a cell: below, right, above, left. */
const SIDES = [0, 1, 2, 3] as const;
type Side = (typeof SIDES)[number];

/**
 * Which sides of a cell a line joins, by the corners that lie above the level (bit 0: lower left, then counter-clockwise).
 * Two corners across from each other are told apart by the cell's mean. Source: marching squares, textbook method.
 */
const JOINS: readonly (readonly (readonly [Side, Side])[])[] = [
  [],
  [[3, 0]],
  [[0, 1]],
  [[3, 1]],
  [[1, 2]],
  [
    [3, 2],
    [1, 0],
  ],
  [[0, 2]],
  [[3, 2]],
  [[2, 3]],
  [[2, 0]],
  [
    [0, 3],
    [2, 1],
  ],
  [[2, 1]],
  [[1, 3]],
  [[1, 0]],
  [[0, 3]],
  [],
];

/** The number of a cell's side, the same from both cells that share it. */
function sideKey({ columns, rows }: Field, c: number, r: number, side: Side): number {
  if (side === 0) return r * columns + c;
  if (side === 2) return (r + 1) * columns + c;
  return columns * rows + r * columns + (side === 1 ? c + 1 : c);
}

/** Where the level crosses a side, by the side's number. */
function crossing(field: Field, key: number, level: number): readonly [number, number] {
  const { columns, rows, values, x0, z0, dx, dz } = field;
  const flat = key < columns * rows;
  const i = flat ? key : key - columns * rows;
  const [c, r] = [i % columns, Math.floor(i / columns)];
  const a = values[i] as number;
  const b = values[flat ? i + 1 : i + columns] as number;
  const t = a === b ? 0.5 : (level - a) / (b - a);
  return [x0 + (c + (flat ? t : 0)) * dx, z0 + (r + (flat ? 0 : t)) * dz];
}

/** Pairs of sides that the level joins, cell by cell. Cells with a node without an answer have none. */
function piecesOf(field: Field, level: number): [number, number][] {
  const { columns, rows, values } = field;
  const pieces: [number, number][] = [];
  for (let r = 0; r + 1 < rows; r++)
    for (let c = 0; c + 1 < columns; c++) {
      const i = r * columns + c;
      const v = [values[i], values[i + 1], values[i + columns + 1], values[i + columns]] as number[];
      const sum = (v[0] as number) + (v[1] as number) + (v[2] as number) + (v[3] as number);
      if (Number.isNaN(sum)) continue;
      let corners = v.reduce((bits, value, k) => bits | (value >= level ? 1 << k : 0), 0);
      // A saddle: the middle says whether the high corners hang together.
      if ((corners === 5 || corners === 10) && sum / 4 < level) corners = 15 - corners;
      for (const [a, b] of JOINS[corners] ?? [])
        pieces.push([sideKey(field, c, r, a), sideKey(field, c, r, b)]);
    }
  return pieces;
}

/** Lines on which a field has this value, strung together from cell to cell. */
export function isolines(field: Field, level: number): Isoline[] {
  const pieces = piecesOf(field, level);
  const at = new Map<number, number[]>();
  for (const [k, piece] of pieces.entries())
    for (const key of piece) {
      const list = at.get(key);
      if (list === undefined) at.set(key, [k]);
      else list.push(k);
    }
  const used = new Uint8Array(pieces.length);
  const follow = (start: number): number[] => {
    const keys: number[] = [];
    for (let key = start; ; ) {
      const next = at.get(key)?.find((k) => used[k] === 0);
      if (next === undefined) return keys;
      used[next] = 1;
      const [a, b] = pieces[next] as [number, number];
      key = a === key ? b : a;
      keys.push(key);
    }
  };
  const lines: Isoline[] = [];
  for (const [k, piece] of pieces.entries()) {
    if (used[k] === 1) continue;
    const ahead = follow(piece[0]);
    const back = follow(piece[0]).reverse();
    lines.push([...back, piece[0], ...ahead].flatMap((key) => crossing(field, key, level)));
  }
  return lines;
}
