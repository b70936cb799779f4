/** Logarithm of the gamma function for x > 0, to 1e-13. Source: Lanczos approximation, g = 7, 9 terms (P. Godfrey's coefficients). */
export function logGamma(x: number): number {
  if (x < 0.5) return Math.log(Math.PI / Math.sin(Math.PI * x)) - logGamma(1 - x);
  const terms = [
    676.5203681218851, -1259.1392167224028, 771.32342877765313, -176.61502916214059, 12.507343278686905,
    -0.13857109526572012, 9.9843695780195716e-6, 1.5056327351493116e-7,
  ];
  const shifted = x - 1;
  const sum = terms.reduce((total, term, i) => total + term / (shifted + i + 1), 0.99999999999980993);
  const t = shifted + 7.5;
  return 0.5 * Math.log(2 * Math.PI) + (shifted + 0.5) * Math.log(t) - t + Math.log(sum);
}

/**
 * Regularised incomplete beta function I_x(a, b), for a, b > 0 and 0 ≤ x ≤ 1: the probability that a beta variable is
 * below x. Source: continued fraction NIST DLMF 8.17.22, evaluated by Lentz's method; symmetry 8.17.4.
 */
export function incompleteBeta(x: number, a: number, b: number): number {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  if (x > (a + 1) / (a + b + 2)) return 1 - incompleteBeta(1 - x, b, a);
  const front = Math.exp(
    a * Math.log(x) + b * Math.log1p(-x) + logGamma(a + b) - logGamma(a) - logGamma(b) - Math.log(a),
  );
  return front * betaFraction(x, a, b);
}

/** 1/(1 + d₁/(1 + d₂/(1 + …))) of DLMF 8.17.22. */
function betaFraction(x: number, a: number, b: number): number {
  const tiny = 1e-300;
  const away = (value: number) => (Math.abs(value) < tiny ? tiny : value);
  let c = 1;
  let d = 1 / away(1 - ((a + b) * x) / (a + 1));
  let fraction = d;
  for (let m = 1; m < 10_000; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    for (const term of [even, odd]) {
      d = 1 / away(1 + term * d);
      c = away(1 + term / c);
      fraction *= c * d;
    }
    if (Math.abs(c * d - 1) < 1e-15) break;
  }
  return fraction;
}

/** Where a rising function of [0, 1] passes `wanted`, to the last bits, by halving. */
function halved(rising: (x: number) => number, wanted: number): number {
  let [low, high] = [0, 1];
  for (let i = 0; i < 200 && high - low > 1e-16 * high; i++) {
    const middle = (low + high) / 2;
    if (rising(middle) < wanted) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** Quantile of the beta distribution: x with I_x(a, b) = share. */
export const betaQuantile = (share: number, a: number, b: number): number =>
  halved((x) => incompleteBeta(x, a, b), share);

/**
 * Quantile of Student's t distribution for `share` ≥ ½, through the beta distribution: with x = ν/(ν + t²),
 * P(T > t) = ½·I_x(ν/2, ½). Source: Abramowitz and Stegun 26.7.1 and 26.5.27.
 */
export function studentQuantile(share: number, freedom: number): number {
  if (share <= 0.5) return 0;
  const x = betaQuantile(2 * (1 - share), freedom / 2, 0.5);
  return Math.sqrt((freedom * (1 - x)) / x);
}

/**
 * Quantile of the χ² distribution with ν degrees of freedom, within 1 % from ν = 10 on.
 * Source: E. B. Wilson and M. M. Hilferty, "The distribution of chi-square", Proc. Natl. Acad. Sci. 17 (1931).
 */
export function chiSquaredQuantile(share: number, freedom: number): number {
  const part = 2 / (9 * freedom);
  return freedom * Math.max(0, 1 - part + normalQuantile(share) * Math.sqrt(part)) ** 3;
}

/** Probability that a standard normal variable is below x, to 1e-15 of one. */
export function normalShare(x: number): number {
  if (x > 0) return 1 - normalShare(-x);
  const density = Math.exp((-x * x) / 2) / Math.sqrt(2 * Math.PI);
  return x < -3 ? density * tailFraction(-x) : 0.5 - density * nearSeries(-x);
}

/** x + x³/3 + x⁵/(3·5) + …: Abramowitz and Stegun 26.2.11. */
function nearSeries(x: number): number {
  let term = x;
  let sum = x;
  for (let k = 3; Math.abs(term) > 1e-17 * Math.abs(sum); k += 2) {
    term *= (x * x) / k;
    sum += term;
  }
  return sum;
}

/** 1/(x + 1/(x + 2/(x + 3/(x + …)))): Abramowitz and Stegun 26.2.14. */
function tailFraction(x: number): number {
  let fraction = 0;
  for (let k = 100; k >= 1; k--) fraction = k / (x + fraction);
  return 1 / (x + fraction);
}

/** Quantile of the standard normal distribution, 0 < share < 1: Newton's method on `normalShare` from a rough guess. */
export function normalQuantile(share: number): number {
  if (share === 0.5) return 0;
  if (share > 0.5) return -normalQuantile(1 - share);
  // Abramowitz and Stegun 26.2.22: within 0.003
  const t = Math.sqrt(-2 * Math.log(share));
  let x = -(t - (2.30753 + 0.27061 * t) / (1 + 0.99229 * t + 0.04481 * t * t));
  for (let i = 0; i < 4; i++)
    x -= ((normalShare(x) - share) * Math.sqrt(2 * Math.PI)) / Math.exp((-x * x) / 2);
  return x;
}
