/**
 * Two one-sided t tests: is a difference inside a margin that was chosen before the data?
 *
 * Units    those of the values
 * Source   Schuirmann 1987
 * Status   memory
 */
import { InputError, requireFinite } from "../input-error.ts";
import { tQuantile, tSf } from "../numeric/t-distribution.ts";

export type Margins = { marginLower: number; marginUpper: number; alpha: number };

/** An alpha with an interval: 1 - 2 alpha must be a confidence. */
export function requireMargins({ marginLower, marginUpper, alpha }: Margins): void {
  requireFinite("marginLower", marginLower);
  requireFinite("marginUpper", marginUpper);
  if (marginLower >= marginUpper) throw new InputError("marginUpper", marginUpper, `above marginLower, ${marginLower}`);
  if (typeof alpha !== "number" || !(alpha > 0 && alpha < 0.5))
    throw new InputError(
      "alpha",
      alpha,
      "a fraction above 0 and below 0.5 (the interval has the confidence 1 - 2 alpha)",
    );
}

/** p at or below alpha counts as reached, rounding allowed for. */
export function reaches(p: number, alpha: number): boolean {
  return p <= alpha + 1e-9;
}

/** Both tests of a difference with its standard error and degrees of freedom, and the interval at 1 - 2 alpha. */
export function twoOneSided(
  { difference, standardError, df }: { difference: number; standardError: number; df: number },
  { marginLower, marginUpper, alpha }: Margins,
) {
  const tLower = (difference - marginLower) / standardError;
  const tUpper = (difference - marginUpper) / standardError;
  const pLower = tSf(tLower, df);
  const pUpper = tSf(-tUpper, df);
  const p = Math.max(pLower, pUpper);
  const halfWidth = tQuantile(alpha, df, "upper") * standardError;
  return {
    difference,
    df,
    tLower,
    tUpper,
    pLower,
    pUpper,
    p,
    intervalLower: difference - halfWidth,
    intervalUpper: difference + halfWidth,
    equivalent: reaches(p, alpha),
  };
}
