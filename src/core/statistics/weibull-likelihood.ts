/** The Weibull distribution of a life, by its share in the likelihood of censored data. */
import type { StandardDistribution } from "./location-scale-likelihood.ts";

/**
 * ln T = mu + sigma Z with F(z) = 1 - exp(-exp z): scale = exp(mu) days, shape = 1 / sigma. H = exp z is the hazard run up.
 * For several treatments and blocks give each coupon its own location to `contribution`: a weight multiplies every part of it.
 */
export const weibull: StandardDistribution = {
  exact: (z) => {
    const h = Math.exp(z);
    return { value: z - h, slope: 1 - h, bend: -h };
  },
  after: (z) => {
    const h = Math.exp(z);
    return { value: -h, slope: -h, bend: -h };
  },
  before: (z) => {
    const h = Math.exp(z);
    const r = shareOfStep(h);
    return { value: logOfStep(h), slope: r, bend: r * (1 - h - r) };
  },
  between: (from, to) => {
    const h1 = Math.exp(from);
    const step = to - from > 1 ? -Math.exp(to) * Math.expm1(from - to) : h1 * Math.expm1(to - from);
    const r = shareOfStep(step);
    // With q = 1 / (exp(step) - 1): h2 q and h1 (1 + q), by way of r, which stays finite where q does not.
    const h2q = -r / Math.expm1(from - to);
    const h1q1 = h1 + h2q - r;
    return {
      value: -h1 + logOfStep(step),
      slope2: h2q,
      slope: r - h1,
      bend1: h1q1 * (r - 1),
      bend2: h2q * (1 - step - r),
      bend12: h1q1 * h2q,
    };
  },
  quantile: (f) => Math.log(-Math.log1p(-f)),
};

/** ln (1 - exp(-h)), the chance of rust while the hazard runs up by h. */
function logOfStep(h: number): number {
  return h > Math.LN2 ? Math.log1p(-Math.exp(-h)) : Math.log(-Math.expm1(-h));
}

/** h / (exp h - 1): 1 for a small step, 0 for a large one. */
function shareOfStep(h: number): number {
  if (h === 0) return 1;
  return h > 700 ? 0 : h / Math.expm1(h);
}
