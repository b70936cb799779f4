/**
 * Solves A·x = b in place by elimination with partial pivoting: `a` holds n rows of `stride` numbers, `b` becomes x.
 * Written out because the libraries at hand allocate per call, and this runs some hundred thousand times a second.
 * Returns false when a pivot vanishes (A is singular to working precision). Source: Golub & Van Loan, Matrix
 * Computations, Gaussian elimination with partial pivoting (chapter from memory).
 */
export function solveInPlace(a: Float64Array, b: Float64Array, n: number, stride: number): boolean {
  for (let k = 0; k < n; k++) {
    let pivot = k;
    let size = Math.abs(a[k * stride + k] as number);
    for (let i = k + 1; i < n; i++) {
      const candidate = Math.abs(a[i * stride + k] as number);
      if (candidate > size) {
        size = candidate;
        pivot = i;
      }
    }
    if (!(size > 1e-300)) return false;
    if (pivot !== k) swapRows(a, b, n, stride, k, pivot);
    const inverse = 1 / (a[k * stride + k] as number);
    for (let i = k + 1; i < n; i++) {
      const factor = (a[i * stride + k] as number) * inverse;
      if (factor === 0) continue;
      for (let j = k + 1; j < n; j++)
        a[i * stride + j] = (a[i * stride + j] as number) - factor * (a[k * stride + j] as number);
      b[i] = (b[i] as number) - factor * (b[k] as number);
    }
  }
  for (let i = n - 1; i >= 0; i--) {
    let sum = b[i] as number;
    for (let j = i + 1; j < n; j++) sum -= (a[i * stride + j] as number) * (b[j] as number);
    b[i] = sum / (a[i * stride + i] as number);
  }
  return true;
}

function swapRows(
  a: Float64Array,
  b: Float64Array,
  n: number,
  stride: number,
  k: number,
  pivot: number,
): void {
  for (let j = k; j < n; j++) {
    const kept = a[k * stride + j] as number;
    a[k * stride + j] = a[pivot * stride + j] as number;
    a[pivot * stride + j] = kept;
  }
  const kept = b[k] as number;
  b[k] = b[pivot] as number;
  b[pivot] = kept;
}
