/**
 * Logarithms of the gamma and beta functions, by Stirling's series.
 *
 * Units    none
 * Source   NIST DLMF 5.11.1
 * Status   memory
 */

const halfLogTwoPi = 0.9189385332046728;
/** B(2k) / (2k (2k-1)): the coefficients of Stirling's series in 1/x, 1/x³, ... (NIST DLMF 5.11.1). */
const stirling = [
  1 / 12,
  -1 / 360,
  1 / 1260,
  -1 / 1680,
  1 / 1188,
  -691 / 360360,
  1 / 156,
  -3617 / 122400,
  43867 / 244188,
  -174611 / 125400,
];
/** From here on the ten terms are good to the last digit. */
const seriesFrom = 10;

/** What Stirling's leading terms leave of ln Γ(x), for x above 0. */
export function stirlingError(x: number): number {
  if (x < seriesFrom) return logGamma(x) - ((x - 0.5) * Math.log(x) - x + halfLogTwoPi);
  const inverseSquare = 1 / (x * x);
  let sum = 0;
  for (let at = stirling.length - 1; at >= 0; at--) sum = sum * inverseSquare + stirling[at]!;
  return sum / x;
}

/** ln Γ(x) for x above 0. */
export function logGamma(x: number): number {
  let shifted = x;
  let product = 1;
  while (shifted < seriesFrom) {
    product *= shifted;
    shifted += 1;
  }
  const large = (shifted - 0.5) * Math.log(shifted) - shifted + halfLogTwoPi + stirlingError(shifted);
  return large - Math.log(product);
}

/** ln n! for a whole n of 0 or more. */
export function logFactorial(n: number): number {
  return n < 2 ? 0 : logGamma(n + 1);
}

/** ln B(a, b) for a and b above 0; large arguments keep their digits. */
export function logBeta(a: number, b: number): number {
  const small = Math.min(a, b);
  const large = Math.max(a, b);
  const sum = small + large;
  if (large < seriesFrom) return logGamma(small) + logGamma(large) - logGamma(sum);
  // ln Γ(large) - ln Γ(sum) with the leading terms cancelled by hand.
  const difference =
    stirlingError(large) -
    stirlingError(sum) +
    small -
    small * Math.log(sum) +
    (large - 0.5) * Math.log1p(-small / sum);
  return logGamma(small) + difference;
}
