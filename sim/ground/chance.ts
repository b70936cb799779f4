/**
 * Repeatable chance: numbers in [0, 1) that depend on the seed alone.
 *
 * Generator xoshiro128** 1.1 and its seeding by a mixer with increment 0x9e3779b9 (D. Blackman and S. Vigna,
 * "Scrambled linear pseudorandom number generators", ACM Trans. Math. Softw. 47 (2021); the mixer is the finaliser of
 * MurmurHash3, in the public domain). 32 bits of each word go into a number, so numbers are multiples of 2⁻³².
 */
export function chance(seed: number): () => number {
  const words = wordsFrom(seedState(seed));
  return () => words() / 2 ** 32;
}

/** The words (0 … 2³² − 1) of xoshiro128** that follow from a state of four words, not all of them zero. */
export function wordsFrom(state: readonly [number, number, number, number]): () => number {
  let [a, b, c, d] = state;
  return () => {
    const word = Math.imul(turnLeft(Math.imul(b, 5), 7), 9) >>> 0;
    const shifted = b << 9;
    c ^= a;
    d ^= b;
    b ^= c;
    a ^= d;
    c ^= shifted;
    d = turnLeft(d, 11);
    return word;
  };
}

const turnLeft = (word: number, bits: number): number => (word << bits) | (word >>> (32 - bits));

/** Four well-mixed words from a whole number; the low 32 bits of the seed count. */
function seedState(seed: number): [number, number, number, number] {
  const word = (i: number): number => {
    let mixed = (seed + Math.imul(i, 0x9e3779b9)) | 0;
    mixed = Math.imul(mixed ^ (mixed >>> 16), 0x85ebca6b);
    mixed = Math.imul(mixed ^ (mixed >>> 13), 0xc2b2ae35);
    return mixed ^ (mixed >>> 16);
  };
  return [word(1), word(2), word(3), word(4)];
}
