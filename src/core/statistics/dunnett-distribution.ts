/** The largest of several |t| that share one control and one error: what Dunnett's comparisons are referred to. */
import { brentRoot } from "../numeric/brent.ts";
import { normalCdf, normalPdf, normalSf } from "../numeric/normal-distribution.ts";
import { logMeanOverScale } from "../numeric/scale-mixture.ts";
import { tQuantile } from "../numeric/t-distribution.ts";

/** Size of the control and of each treatment compared with it, and the degrees of freedom of the error. */
export type DunnettShape = { control: number; treatments: readonly number[]; df: number };

/**
 * P(max |T| >= t). The correlation of T_i and T_j is l_i l_j with l_i = √(n_i / (n_i + n_0)), so the multivariate t is a double
 * integral: over s = √(chi-square / df) and over the part z that all share through the control.
 */
export function dunnettSf(t: number, { control, treatments, df }: DunnettShape): number {
  if (t === 0) return 1;
  const loadings = treatments.map((size) => Math.sqrt(size / (size + control)));
  // In z the integrand has the sharpness of all its factors together; the trapezoidal rule then has no error left.
  const width = 1 / Math.sqrt(1 + treatments.reduce((sum, size) => sum + size / control, 0));
  const steepest = Math.max(...treatments.map((size) => (size + control) / control));
  const logProbability = (s: number) => Math.log(outside(t * s, loadings, 0.7 * width));
  const startAt = Math.sqrt((df + 1) / (df + t * t));
  return Math.exp(
    logMeanOverScale(df, logProbability, { startAt, sharpness: 2 * steepest * (1 + t * t * startAt ** 2) }),
  );
}

/** P(at least one |X_i| >= reach) for the normal X behind T, from the outside shares so that small ones keep their digits. */
function outside(reach: number, loadings: readonly number[], step: number): number {
  let sum = 0;
  // Where z pushes a treatment outside, at l reach, the integrand may peak; nine SD beyond it is gone.
  const steps = Math.ceil(Math.min(38, Math.max(...loadings) * reach + 9) / step);
  for (let at = -steps; at <= steps; at++) {
    const z = at * step;
    const density = normalPdf(z);
    let logInside = 0;
    for (const loading of loadings) {
      const rest = Math.sqrt(1 - loading * loading);
      logInside += Math.log1p(
        -Math.min(1, normalSf((reach - loading * z) / rest) + normalCdf((-reach - loading * z) / rest)),
      );
    }
    sum += density * -Math.expm1(logInside);
  }
  return Math.min(1, sum * step);
}

/** The t that the largest |T| passes with the chance `p`: between that of one comparison and that of Bonferroni. */
export function dunnettCritical(p: number, shape: DunnettShape): number {
  const single = tQuantile(p / 2, shape.df, "upper");
  if (shape.treatments.length === 1) return single;
  const bonferroni = tQuantile(p / (2 * shape.treatments.length), shape.df, "upper");
  return brentRoot((t) => Math.log(dunnettSf(t, shape) / p), single, bonferroni, 1e-9);
}
