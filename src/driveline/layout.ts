import { drawnAt, type Place } from './places.ts';
import { rowNumbers, rowsOf } from './rows.ts';
import { spread } from './spread.ts';
import type { Tree } from './tree.ts';

/** Measures of the diagram, px: the least width of a part with its words, the greatest, and free room at both sides. */
export const CELL = { least: 78, most: 98, side: 6 } as const;
/** The line of axle lines on top, and a row with two lines of words. */
const HEIGHT = { wheels: 26, row: 70, foot: 4 } as const;
/** From the top of a row: ways to other rows, then lines to where parts truly sit, then the middle of the symbols. */
const WAYS = 3;
const LEADERS = 6;
const SYMBOL = 24;
/** Width of a wheel with its name. */
const WHEEL = 64;

/** What does not change while the picture moves: which part is in which row, and how wide and high all is. */
export interface Plan {
  /** The sources' row first. */
  readonly rows: readonly (readonly number[])[];
  readonly rowOf: readonly number[];
  /** Width of a part with its words, px. */
  readonly cell: number;
  readonly width: number;
  readonly height: number;
}

/**
 * Lays out the rows of a drive line for a strip of a width, px. Axle lines are on top, below the picture's wheels; sources
 * in the lowest row.
 * @param places where each part sits, in the order of the tree
 */
export function planOf(tree: Tree, places: readonly Place[], width: number): Plan {
  const most = Math.max(1, Math.floor((width - 2 * CELL.side) / CELL.least));
  const rows = rowsOf(
    tree,
    places.map(({ anchors }) => drawnAt(anchors).x),
    most,
  );
  const fullest = Math.max(1, ...rows.map((row) => row.length));
  return {
    rows,
    rowOf: rowNumbers(rows, tree.parts),
    cell: Math.min(CELL.most, Math.floor((width - 2 * CELL.side) / fullest)),
    width,
    height: HEIGHT.wheels + rows.length * HEIGHT.row + HEIGHT.foot,
  };
}

/** Top of a row, px. */
function rowTop({ rows }: Plan, row: number): number {
  return HEIGHT.wheels + (rows.length - 1 - row) * HEIGHT.row;
}

/** Where a part or a wheel stands: the middle of its symbol, px, and where it sits in the vehicle. */
export interface Spot {
  readonly x: number;
  readonly y: number;
  /** Where it truly is, px, on the line above it. */
  readonly anchor: number;
  readonly top: number;
}

export interface Layout {
  readonly parts: readonly Spot[];
  /** In the order of the tree's wheels. */
  readonly wheels: readonly Spot[];
}

/** Where everything stands when parts and axle lines truly are at these places of the picture, px. */
export function layoutOf(plan: Plan, parts: readonly number[], wheels: readonly number[]): Layout {
  const all = [...parts, ...wheels];
  // What is out of sight stays there; nothing else is pushed out.
  const from = Math.min(CELL.side, ...all.map((x) => x - plan.cell / 2));
  const to = Math.max(plan.width - CELL.side, ...all.map((x) => x + plan.cell / 2));
  const spots: Spot[] = parts.map((anchor) => ({ x: anchor, y: 0, anchor, top: 0 }));
  plan.rows.forEach((row, r) => {
    const wanted = row.map((part) => parts[part] as number);
    const widths = row.map(() => plan.cell);
    const top = rowTop(plan, r);
    spread(wanted, widths, from, to).forEach((x, i) => {
      const part = row[i] as number;
      spots[part] = { x, y: top + SYMBOL, anchor: wanted[i] as number, top };
    });
  });
  return { parts: spots, wheels: wheelSpots(wheels, from, to) };
}

/** Axle lines on the top line, in the order in which they stand. */
function wheelSpots(wheels: readonly number[], from: number, to: number): readonly Spot[] {
  const order = wheels.map((_, i) => i).sort((a, b) => (wheels[a] as number) - (wheels[b] as number));
  const wanted = order.map((i) => wheels[i] as number);
  const width = Math.min(WHEEL, (to - from) / Math.max(1, wheels.length));
  const placed = spread(
    wanted,
    wanted.map(() => width),
    from,
    to,
  );
  const spots: Spot[] = [];
  order.forEach((wheel, i) => {
    spots[wheel] = { x: placed[i] as number, y: HEIGHT.wheels / 2, anchor: wanted[i] as number, top: 0 };
  });
  return spots;
}

/** Half of a symbol's plate, px. */
export const PLATE = { x: 12, y: 10 } as const;

/** The line from one part to one that it turns: straight in a row, else over the edge of the lower row. */
export function linkPath(from: Spot, to: Spot): string {
  if (Math.abs(from.y - to.y) < 1) {
    const way = Math.sign(to.x - from.x) || 1;
    return `M${place(from.x + way * PLATE.x)} ${place(from.y)}H${place(to.x - way * PLATE.x)}`;
  }
  return `M${place(from.x)} ${place(from.y - PLATE.y)}V${place(from.top + WAYS)}H${place(to.x)}V${place(to.y + PLATE.y)}`;
}

/** From a part up to an axle line that it turns. */
export function wheelPath(from: Spot, wheel: Spot): string {
  return `M${place(from.x)} ${place(from.y - PLATE.y)}V${place(from.top + WAYS)}H${place(wheel.x)}V${place(wheel.y + 7)}`;
}

/** From where a part truly sits to where it stands; empty where that is the same. */
export function leaderPath({ x, y, anchor, top }: Spot): string {
  return Math.abs(anchor - x) < 2
    ? ''
    : `M${place(anchor)} ${place(top + LEADERS)}v2L${place(x)} ${place(y - PLATE.y)}`;
}

/** From the picture down to a part: straight at its true place, then over to where it stands. */
export const guidePath = ({ x, y, anchor, top }: Spot): string =>
  `M${place(anchor)} 0V${place(top + LEADERS)}L${place(x)} ${place(y - PLATE.y)}`;

const place = (px: number): string => px.toFixed(1);

/** A name in so many lines of so many letters: broken at a word where that is possible, its middle left out where it must. */
export function fittedName(name: string, letters: number, lines: 1 | 2): readonly string[] {
  if (name.length <= letters) return [name];
  if (lines === 2) {
    const space = name.lastIndexOf(' ', letters);
    const at = space > 0 ? space : letters;
    return [name.slice(0, at), ...fittedName(name.slice(at).trim(), letters, 1)];
  }
  const tail = Math.floor((letters - 1) / 2);
  return [`${name.slice(0, letters - 1 - tail).trimEnd()}…${name.slice(name.length - tail).trimStart()}`];
}
