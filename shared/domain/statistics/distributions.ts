/**
 * Coefficients of the Lanczos series with g = 7, n = 9.
 * Source: Lanczos, SIAM J. Numer. Anal. B 1 (1964) 86–96; this set from Godfrey, "A note on the computation of the
 * convergent Lanczos complex Gamma approximation" (2001); checked in the tests against factorials.
 */
const LANCZOS: readonly number[] = [
  0.99999999999980993, 676.5203681218851, -1259.1392167224028, 771.32342877765313, -176.61502916214059,
  12.507343278686905, -0.13857109526572012, 9.9843695780195716e-6, 1.5056327351493116e-7,
];

/** The natural logarithm of the gamma function, x > 0. */
export function logGamma(x: number): number {
  if (x < 0.5) return Math.log(Math.PI / Math.sin(Math.PI * x)) - logGamma(1 - x);
  const t = x - 1 + 7.5;
  const series = LANCZOS.reduce((sum, c, index) => sum + (index === 0 ? c : c / (x - 1 + index)), 0);
  return Math.log(2 * Math.PI) / 2 + (x - 0.5) * Math.log(t) - t + Math.log(series);
}

/** The natural logarithm of n!, n a whole number ≥ 0. */
export function logFactorial(n: number): number {
  return n < 2 ? 0 : logGamma(n + 1);
}

/**
 * The regularised incomplete beta function I_x(a, b), 0 ≤ x ≤ 1, a > 0, b > 0.
 * Source: NIST Digital Library of Mathematical Functions, 8.17.22 (continued fraction), evaluated by the method of
 * Lentz (Applied Optics 15 (1976) 668–671).
 */
export function incompleteBeta(x: number, a: number, b: number): number {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  if (x > (a + 1) / (a + b + 2)) return 1 - incompleteBeta(1 - x, b, a);
  const front = Math.exp(
    logGamma(a + b) - logGamma(a) - logGamma(b) + a * Math.log(x) + b * Math.log(1 - x) - Math.log(a),
  );
  const tiny = 1e-300;
  const away = (value: number) => (Math.abs(value) < tiny ? tiny : value);
  let c = 1;
  let d = 1 / away(1 - ((a + b) * x) / (a + 1));
  let fraction = d;
  for (let m = 1; m <= 500; m += 1) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / away(1 + even * d);
    c = away(1 + even / c);
    fraction *= d * c;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / away(1 + odd * d);
    c = away(1 + odd / c);
    fraction *= d * c;
    if (Math.abs(d * c - 1) < 1e-15) break;
  }
  return front * fraction;
}

/**
 * The chance that a Student t value with `freedom` degrees of freedom (> 0) lies further from 0 than `t`, either way.
 * Source: Abramowitz & Stegun, Handbook of Mathematical Functions (1964), 26.7.1 with 26.5.27.
 */
export function studentTwoSided(t: number, freedom: number): number {
  return incompleteBeta(freedom / (freedom + t * t), freedom / 2, 0.5);
}

/**
 * The z below which the given share (0 < share < 1) of a standard normal distribution lies; better than 1e-8.
 * Source: Acklam's rational approximation (2003, relative error 1.15e-9), as widely reprinted.
 */
export function normalQuantile(share: number): number {
  const low = 0.02425;
  if (share <= 0) return Number.NEGATIVE_INFINITY;
  if (share >= 1) return Number.POSITIVE_INFINITY;
  if (share > 1 - low) return -normalQuantile(1 - share);
  const power = (x: number, list: readonly number[]) => list.reduce((sum, c) => sum * x + c, 0);
  if (share < low) {
    const q = Math.sqrt(-2 * Math.log(share));
    return (
      power(
        q,
        [
          -7.784894002430293e-3, -3.223964580411365e-1, -2.400758277161838, -2.549732539343734,
          4.374664141464968, 2.938163982698783,
        ],
      ) / power(q, [7.784695709041462e-3, 3.224671290700398e-1, 2.445134137142996, 3.754408661907416, 1])
    );
  }
  const q = share - 0.5;
  const r = q * q;
  return (
    (q *
      power(
        r,
        [
          -3.969683028665376e1, 2.209460984245205e2, -2.759285104469687e2, 1.38357751867269e2,
          -3.066479806614716e1, 2.506628277459239,
        ],
      )) /
    power(
      r,
      [
        -5.447609879822406e1, 1.615858368580409e2, -1.556989798598866e2, 6.680131188771972e1,
        -1.328068155288572e1, 1,
      ],
    )
  );
}

/**
 * The chance that a chi-square value with `freedom` degrees of freedom (> 0) is above `x`.
 * Source: Abramowitz & Stegun (1964), 26.4.19: Q(freedom/2, x/2); series 6.5.29 and continued fraction 6.5.31 of the
 * incomplete gamma function, the latter by the method of Lentz.
 */
export function chiSquareAbove(x: number, freedom: number): number {
  if (x <= 0) return 1;
  const a = freedom / 2;
  const half = x / 2;
  const front = Math.exp(a * Math.log(half) - half - logGamma(a));
  if (half < a + 1) {
    let term = 1 / a;
    let sum = term;
    for (let n = 1; n <= 1000 && term > sum * 1e-16; n += 1) {
      term *= half / (a + n);
      sum += term;
    }
    return Math.max(0, 1 - front * sum);
  }
  let b = half + 1 - a;
  let c = 1e300;
  let d = 1 / b;
  let fraction = d;
  for (let n = 1; n <= 1000; n += 1) {
    const step = -n * (n - a);
    b += 2;
    d = 1 / (step * d + b);
    c = b + step / c;
    fraction *= d * c;
    if (Math.abs(d * c - 1) < 1e-15) break;
  }
  return front * fraction;
}
