/**
 * A smooth curve through points that never swings past them: piecewise cubic with the end slopes of Fritsch & Butland,
 * "A method for constructing local monotone piecewise cubic interpolants" (SIAM J. Sci. Stat. Comput. 5, 1984).
 * Where the points rise, so does the curve; its slope is continuous.
 */
export interface Curve {
  readonly x: Float64Array;
  /** Value at each point, and slope there. */
  readonly y: Float64Array;
  readonly slope: Float64Array;
  /** On piece i, with t = x − x[i]: y[i] + slope[i]·t + square[i]·t² + cube[i]·t³. */
  readonly square: Float64Array;
  readonly cube: Float64Array;
}

/**
 * Slope at a point between two chords: none where they disagree in direction, otherwise their harmonic mean, weighted
 * so that the shorter piece counts more.
 */
function slopeBetween(before: number, after: number, widthBefore: number, widthAfter: number): number {
  if (before * after <= 0) return 0;
  const total = 3 * (widthBefore + widthAfter);
  return total / ((2 * widthAfter + widthBefore) / before + (widthAfter + 2 * widthBefore) / after);
}

/**
 * Curve through at least two points.
 * @param xs strictly rising
 * @param ys as many values
 */
export function monotoneCurve(xs: readonly number[], ys: readonly number[]): Curve {
  const count = xs.length;
  const x = Float64Array.from(xs);
  const y = Float64Array.from(ys);
  const width = (i: number): number => (x[i + 1] as number) - (x[i] as number);
  const chord = (i: number): number => ((y[i + 1] as number) - (y[i] as number)) / width(i);
  const slope = Float64Array.from(xs, (_, i) => {
    if (i === 0) return chord(0);
    if (i === count - 1) return chord(count - 2);
    return slopeBetween(chord(i - 1), chord(i), width(i - 1), width(i));
  });
  const square = new Float64Array(count - 1);
  const cube = new Float64Array(count - 1);
  for (let i = 0; i < count - 1; i++) {
    const [from, to, along, over] = [slope[i] as number, slope[i + 1] as number, chord(i), width(i)];
    square[i] = (3 * along - 2 * from - to) / over;
    cube[i] = (from + to - 2 * along) / over ** 2;
  }
  return { x, y, slope, square, cube };
}

/** Piece on which `at` lies: the last point not beyond it; the first or last piece outside the curve. */
export function pieceAt(curve: Curve, at: number): number {
  const { x } = curve;
  let low = 0;
  let high = x.length - 2;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((x[middle] as number) <= at) low = middle;
    else high = middle - 1;
  }
  return low;
}

/** Value on piece i, `t` beyond its first point. */
export function valueOn({ y, slope, square, cube }: Curve, i: number, t: number): number {
  return (
    (y[i] as number) + t * ((slope[i] as number) + t * ((square[i] as number) + t * (cube[i] as number)))
  );
}

/** Slope on piece i, `t` beyond its first point. */
export function slopeOn({ slope, square, cube }: Curve, i: number, t: number): number {
  return (slope[i] as number) + t * (2 * (square[i] as number) + t * 3 * (cube[i] as number));
}

/** Area under piece i from its first point to `t` beyond it. */
export function areaOn({ y, slope, square, cube }: Curve, i: number, t: number): number {
  return (
    t *
    ((y[i] as number) +
      t * ((slope[i] as number) / 2 + t * ((square[i] as number) / 3 + (t * (cube[i] as number)) / 4)))
  );
}

/** Value of the curve at `at`, which must lie within its points. */
export function valueAt(curve: Curve, at: number): number {
  const i = pieceAt(curve, at);
  return valueOn(curve, i, at - (curve.x[i] as number));
}
