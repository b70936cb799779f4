/** Below this share of the matrix's largest figure a pivot is rounding: doubles carry 16 digits, rods a few steps. */
const ROUNDING = 1e-10;

/** Place of the largest figure in the rows and columns that are left, and its size. */
function pivotOf(
  rows: readonly (readonly number[])[],
  from: number,
): { row: number; col: number; size: number } {
  let best = { row: from, col: from, size: 0 };
  for (let row = from; row < rows.length; row += 1)
    for (let col = from; col < (rows[row]?.length ?? 0); col += 1) {
      const size = Math.abs(rows[row]?.[col] ?? 0);
      if (size > best.size) best = { row, col, size };
    }
  return best;
}

function swap<T>(list: T[], i: number, j: number): void {
  const kept = list[i] as T;
  list[i] = list[j] as T;
  list[j] = kept;
}

/**
 * Rank of a small matrix, rows of equal length, any unit: Gaussian elimination with complete pivoting (textbooks on
 * numerical linear algebra). Its own few lines, because a library for it would be most of what a page loads to check a
 * document.
 */
export function rankOf(matrix: readonly (readonly number[])[]): number {
  const rows = matrix.map((row) => [...row]);
  const least = pivotOf(rows, 0).size * ROUNDING;
  const most = Math.min(rows.length, rows[0]?.length ?? 0);
  for (let k = 0; k < most; k += 1) {
    const pivot = pivotOf(rows, k);
    if (pivot.size <= least) return k;
    swap(rows, k, pivot.row);
    for (const row of rows) swap(row, k, pivot.col);
    const top = rows[k] as number[];
    for (const row of rows.slice(k + 1)) {
      const factor = (row[k] ?? 0) / (top[k] as number);
      for (let col = k; col < row.length; col += 1) row[col] = (row[col] ?? 0) - factor * (top[col] ?? 0);
    }
  }
  return most;
}
