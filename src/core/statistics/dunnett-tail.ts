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
  const parts = loadings.map((loading) => ({ loading, rest: Math.sqrt(1 - loading * loading) }));
  const step = Math.min(0.2, 0.3 * Math.min(...parts.map(({ loading, rest }) => rest / loading)));
  const beyond = (bound: number): number => {
    let sum = 0;
    for (let z = -widest; z <= widest; z += step) {
      let logInside = 0;
      for (const { loading, rest } of parts) {
        const outside = normalCdf((-loading * z - bound) / rest) + normalCdf((loading * z - bound) / rest);
        logInside += Math.log1p(-Math.min(1, outside));
      }
      sum -= normalPdf(z) * Math.expm1(logInside);
    }
    return sum * step;
  };
  return Math.exp(
    logMeanOverScale(df, (s) => Math.log(beyond(t * s)), { startAt: df / (df + t * t) + 0.1, sharpness: 12 + t * t }),
  );
}
