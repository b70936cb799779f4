import { directionTable } from './direction-numbers.ts';
import { streamOf } from './stream.ts';

/** Most dimensions of a Sobol' sequence here. */
export const mostDimensions = directionTable.length + 1;

const bits = 32;

/** Direction numbers v₁ … v₃₂ of a dimension (counted from 0) as 32-bit words, the first binary place highest. */
function directionsOf(dimension: number): Uint32Array {
  const directions = new Uint32Array(bits);
  const row = dimension === 0 ? undefined : directionTable[dimension - 1];
  const [a = 0, ...given] = row?.split(' ').map(Number) ?? [];
  const degree = given.length;
  for (let k = 0; k < bits; k++) {
    if (row === undefined || k < degree) {
      directions[k] = (row === undefined ? 1 : (given[k] as number)) << (bits - 1 - k);
      continue;
    }
    // vₖ = a₁·vₖ₋₁ ⊕ … ⊕ aₛ₋₁·vₖ₋ₛ₊₁ ⊕ vₖ₋ₛ ⊕ (vₖ₋ₛ ≫ s), the first coefficient in the highest bit of a
    const before = directions[k - degree] as number;
    let word = before ^ (before >>> degree);
    for (let j = 1; j < degree; j++) if ((a >>> (degree - 1 - j)) & 1) word ^= directions[k - j] as number;
    directions[k] = word;
  }
  return directions;
}

/**
 * Words of a Sobol' sequence: the point of an index (from 0, below 2³²) as whole numbers 0 … 2³² − 1, in the order of
 * the Gray code, so that point 1 is the middle and every 2ᵏ points in a row, from a multiple on, are spread evenly.
 * Source: I. M. Sobol' (1967); Gray code: I. A. Antonov and V. M. Saleev (1979); recurrence and table: Joe and Kuo (2008).
 * @throws RangeError for less than one or more than `mostDimensions` dimensions
 */
export function sobolWords(dimensions: number): (index: number) => Uint32Array {
  if (!(dimensions >= 1 && dimensions <= mostDimensions))
    throw new RangeError(`a Sobol' sequence has 1 to ${mostDimensions} dimensions, not ${dimensions}`);
  const directions = Array.from({ length: dimensions }, (_, i) => directionsOf(i));
  return (index) => {
    const gray = (index ^ (index >>> 1)) >>> 0;
    return Uint32Array.from(directions, (words) => {
      let word = 0;
      for (let k = 0, rest = gray; rest !== 0; k++, rest >>>= 1) if (rest & 1) word ^= words[k] as number;
      return word;
    });
  };
}

/**
 * A Sobol' sequence moved by a random digital shift: the point of an index (from 0) as shares, all above 0 and below 1.
 * The shift keeps the evenness, and makes means over the points free of bias. `seed` alone decides it.
 * Source: random digital shift, texts on quasi-Monte Carlo (C. Lemieux, Monte Carlo and Quasi-Monte Carlo Sampling).
 * @throws RangeError for less than one or more than `mostDimensions` dimensions
 */
export function sobol(dimensions: number, seed: number): (index: number) => number[] {
  const words = sobolWords(dimensions);
  const draw = streamOf(seed, 'digital shift');
  const shifts = Array.from({ length: dimensions }, () => draw() * 2 ** bits);
  return (index) =>
    Array.from(words(index), (word, i) => (((word ^ (shifts[i] as number)) >>> 0) + 0.5) / 2 ** bits);
}
