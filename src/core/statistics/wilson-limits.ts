/**
 * Score limits of a share that need not be a whole count: `wilsonInterval` is for counts.
 *
 * Units   shares and confidence as fractions
 * Source  Wilson 1927
 * Status  computed
 */
import { normalQuantile } from "../numeric/normal-distribution.ts";

/** Wilson 1927: limits of a share seen in so many trials. */
export function wilsonLimits(share: number, trials: number, confidence: number): { lower: number; upper: number } {
  const z2 = normalQuantile((1 + confidence) / 2) ** 2;
  const centre = share + z2 / (2 * trials);
  const reach = Math.sqrt(z2 * ((share * (1 - share)) / trials + z2 / (4 * trials * trials)));
  const scale = 1 + z2 / trials;
  // 0 of n and n of n end on 0 and 1 exactly; rounding may leave a hair.
  return {
    lower: share === 0 ? 0 : (centre - reach) / scale,
    upper: share === 1 ? 1 : (centre + reach) / scale,
  };
}
