/**
 * Sums harmonics at evenly spaced places: out[j] = Σ_k amplitude[k]·cos(2π·j·k/count + phase[k]), j = 0 … count − 1.
 * Harmonic k makes k waves over the count; k < count/2. `count` is a power of two; the work is count·log₂(count).
 * @throws RangeError if the count is no power of two, or there are too many harmonics for it.
 */
export function sumHarmonics(amplitude: Float64Array, phase: Float64Array, count: number): Float64Array {
  if (!Number.isInteger(Math.log2(count))) throw new RangeError(`${count} places: not a power of two`);
  if (amplitude.length > count / 2) throw new RangeError(`${amplitude.length} harmonics on ${count} places`);
  const re = new Float64Array(count);
  const im = new Float64Array(count);
  for (let k = 0; k < amplitude.length; k++) {
    re[k] = (amplitude[k] as number) * Math.cos(phase[k] as number);
    im[k] = (amplitude[k] as number) * Math.sin(phase[k] as number);
  }
  transform(re, im);
  return re;
}

/** out[j] = Σ_k in[k]·exp(+2πi·j·k/n) in place, by halving (Cooley and Tukey 1965). n is a power of two. */
function transform(re: Float64Array, im: Float64Array): void {
  const n = re.length;
  reverseBits(re, im);
  const cos = Float64Array.from({ length: n / 2 }, (_, i) => Math.cos((2 * Math.PI * i) / n));
  const sin = Float64Array.from({ length: n / 2 }, (_, i) => Math.sin((2 * Math.PI * i) / n));
  for (let half = 1; half < n; half *= 2) {
    const stride = n / (2 * half);
    for (let block = 0; block < n; block += 2 * half) {
      for (let i = 0; i < half; i++) {
        const low = block + i;
        const high = low + half;
        const c = cos[i * stride] as number;
        const s = sin[i * stride] as number;
        const x = c * (re[high] as number) - s * (im[high] as number);
        const y = c * (im[high] as number) + s * (re[high] as number);
        re[high] = (re[low] as number) - x;
        im[high] = (im[low] as number) - y;
        re[low] = (re[low] as number) + x;
        im[low] = (im[low] as number) + y;
      }
    }
  }
}

/** Swaps every place with the one whose index has the same bits in the opposite order. */
function reverseBits(re: Float64Array, im: Float64Array): void {
  const n = re.length;
  for (let i = 0, j = 0; i < n; i++) {
    if (i < j) {
      [re[i], re[j]] = [re[j] as number, re[i] as number];
      [im[i], im[j]] = [im[j] as number, im[i] as number];
    }
    let bit = n >> 1;
    for (; bit > 0 && (j & bit) !== 0; bit >>= 1) j ^= bit;
    j |= bit;
  }
}
