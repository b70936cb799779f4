/** Least and greatest value in each pixel column; NaN where a line never comes by. */
export interface Envelope {
  readonly least: Float64Array;
  readonly greatest: Float64Array;
}

/**
 * What a line does within each of `count` equal columns between `from` and `to`: a jag of one sample is kept however
 * many samples share its column. The line runs straight between samples, and x may go back and forth.
 * @param x abscissa of each sample, finite
 * @param y value of each sample, finite
 */
export function envelopeOf(
  x: ArrayLike<number>,
  y: ArrayLike<number>,
  from: number,
  to: number,
  count: number,
): Envelope {
  const least = new Float64Array(count).fill(Number.NaN);
  const greatest = new Float64Array(count).fill(Number.NaN);
  const note = (column: number, value: number): void => {
    if (column < 0 || column >= count) return;
    if (!((least[column] ?? 0) <= value)) least[column] = value;
    if (!((greatest[column] ?? 0) >= value)) greatest[column] = value;
  };
  const placeOf = (value: number): number => ((value - from) / (to - from)) * count;
  for (let i = 0; i < x.length; i++) {
    const here = placeOf(x[i] ?? 0);
    // The right edge belongs to the last column.
    note(here === count ? count - 1 : Math.floor(here), y[i] ?? 0);
    if (i > 0) crossings(placeOf(x[i - 1] ?? 0), y[i - 1] ?? 0, here, y[i] ?? 0, count, note);
  }
  return { least, greatest };
}

/** Notes the value of a straight stretch at each column border that it crosses, in the columns on both sides. */
function crossings(
  a: number,
  ya: number,
  b: number,
  yb: number,
  count: number,
  note: (column: number, value: number) => void,
): void {
  const first = Math.max(0, Math.ceil(Math.min(a, b)));
  const last = Math.min(count, Math.floor(Math.max(a, b)));
  for (let border = first; border <= last && a !== b; border++) {
    const value = ya + ((yb - ya) * (border - a)) / (b - a);
    note(border - 1, value);
    note(border, value);
  }
}

/**
 * The envelope as the points of one line, left to right: in each column first the end that is nearer to where the line
 * was, then the other. Columns without a value break the line, so the result is a list of lines.
 * @returns lines of [column middle, value]
 */
export function linesOf({ least, greatest }: Envelope): [number, number][][] {
  const lines: [number, number][][] = [];
  let line: [number, number][] = [];
  for (let c = 0; c < least.length; c++) {
    const low = least[c] ?? Number.NaN;
    const high = greatest[c] ?? Number.NaN;
    if (Number.isNaN(low)) {
      if (line.length > 0) lines.push(line);
      line = [];
      continue;
    }
    const before = line.at(-1)?.[1] ?? low;
    const ends = Math.abs(before - low) <= Math.abs(before - high) ? [low, high] : [high, low];
    for (const value of low === high ? [low] : ends) line.push([c + 0.5, value]);
  }
  return line.length > 0 ? [...lines, line] : lines;
}

/** Least and greatest of several columns, NaN left out; both 0 where there is nothing. */
export function extentOf(lists: readonly ArrayLike<number>[]): [number, number] {
  let [least, greatest] = [Infinity, -Infinity];
  for (const list of lists) {
    for (let i = 0; i < list.length; i++) {
      const value = list[i] ?? Number.NaN;
      if (value < least) least = value;
      if (value > greatest) greatest = value;
    }
  }
  return least <= greatest ? [least, greatest] : [0, 0];
}
