import { chance } from '../ground/chance.ts';

/**
 * Repeatable chance in [0, 1) for one use of a seed: streams for different uses, or different numbers of the same use,
 * have nothing to do with each other, so that no stream's place needs to be kept.
 * Words are mixed in with the finaliser of MurmurHash3 (public domain) between them.
 */
export function streamOf(seed: number, use: string, number = 0): () => number {
  let mixed = mix(seed | 0);
  for (const letter of use) mixed = mix(mixed ^ (letter.codePointAt(0) ?? 0));
  return chance(mix(mixed ^ number));
}

function mix(word: number): number {
  let mixed = (word + 0x9e3779b9) | 0;
  mixed = Math.imul(mixed ^ (mixed >>> 16), 0x85ebca6b);
  mixed = Math.imul(mixed ^ (mixed >>> 13), 0xc2b2ae35);
  return mixed ^ (mixed >>> 16);
}
