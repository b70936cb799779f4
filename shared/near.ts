/**
 * Number of single-letter changes (add, drop, replace, swap neighbours) between two words, letters compared as given.
 * Optimal string alignment distance, textbook dynamic programming.
 */
function editDistance(a: string, b: string): number {
  let before: number[] = [];
  let above = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1];
      let best = Math.min((above[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1, (above[j - 1] ?? 0) + (same ? 0 : 1));
      const swapped = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1];
      if (swapped) best = Math.min(best, (before[j - 2] ?? 0) + 1);
      row.push(best);
    }
    before = above;
    above = row;
  }
  return above[b.length] ?? 0;
}

/** Letters and digits only, lower case: 'Torsion-Bar' and 'torsionBar' are the same word to a person. */
const bare = (word: string) => word.toLowerCase().replace(/[^\p{L}\p{N}%°µ]/gu, '');

/**
 * The candidate that a person most likely meant by `word`, or undefined when none is near. Case, hyphens and spaces
 * don't count; two changes are allowed per five letters, and a clear beginning of a word counts as near.
 */
export function nearest(word: string, candidates: Iterable<string>): string | undefined {
  const wanted = bare(word.slice(0, 100));
  if (wanted === '') return undefined;
  let best: string | undefined;
  let least = Infinity;
  for (const candidate of candidates) {
    const other = bare(candidate);
    const begins =
      wanted.length >= 3 && other.length >= 3 && (other.startsWith(wanted) || wanted.startsWith(other));
    const distance = begins ? 0.5 : editDistance(wanted, other);
    const allowed = Math.max(
      wanted.length >= 3 ? 1 : 0,
      Math.floor(Math.max(wanted.length, other.length) / 2.5),
    );
    const off = wanted === other ? 0 : distance;
    if (off <= allowed && off < least) {
      least = off;
      best = candidate;
    } else if (begins && off < least) {
      least = off;
      best = candidate;
    }
  }
  return best;
}

/** 'did you mean "radius"?', or undefined when nothing is near. */
export function didYouMean(word: string, candidates: Iterable<string>): string | undefined {
  const near = nearest(word, candidates);
  return near === undefined ? undefined : `did you mean "${near}"?`;
}
