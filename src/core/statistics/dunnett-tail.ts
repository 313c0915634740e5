/**
 * The largest of several t that share one control and one estimate of scatter (Dunnett 1955).
 *
 * Units   t without unit, p as a fraction
 * Source  Dunnett 1955; both integrals by the trapezoidal rule
 * Status  computed
 */
import { normalCdf, normalPdf } from "../numeric/normal-distribution.ts";
import { logMeanOverScale } from "../numeric/scale-mixture.ts";

/** Beyond it the normal density adds nothing. */
const widest = 9;

/**
 * P(largest |t| >= t) with `loadings` l_i = sqrt(n_i / (n_i + n_0)), the correlation of two t being l_i l_j. Both integrals by the
 * trapezoidal rule on the tail itself, so that a small p keeps its digits.
 */
export function dunnettTail(t: number, loadings: readonly number[], df: number): number {
  if (t <= 0) return 1;
  // Equal groups have one loading: one factor to the power of their number.
  const parts = [...new Set(loadings)].map((loading) => ({
    loading,
    rest: Math.sqrt(1 - loading * loading),
    times: loadings.filter((other) => other === loading).length,
  }));
  const step = Math.min(0.2, 0.3 * Math.min(...parts.map(({ loading, rest }) => rest / loading)));
  const beyond = (bound: number): number => {
    // The same on both sides of 0.
    let sum = 0;
    for (let z = 0; z <= widest; z += step) {
      let logInside = 0;
      for (const { loading, rest, times } of parts) {
        const outside = normalCdf((-loading * z - bound) / rest) + normalCdf((loading * z - bound) / rest);
        logInside += times * Math.log1p(-Math.min(1, outside));
      }
      sum -= (z === 0 ? 1 : 2) * normalPdf(z) * Math.expm1(logInside);
    }
    return sum * step;
  };
  return Math.exp(
    logMeanOverScale(df, (s) => Math.log(beyond(t * s)), { startAt: df / (df + t * t) + 0.1, sharpness: 12 + t * t }),
  );
}
