/** Score limits of a share, and of the difference of two shares; the shares need not be whole counts. */
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

/** Newcombe 1998, hybrid of the two Wilson limits without correction: difference of two independent shares. */
export function shareDifferenceLimits(
  first: { share: number; trials: number },
  second: { share: number; trials: number },
  confidence: number,
): { lower: number; upper: number } {
  const one = wilsonLimits(first.share, first.trials, confidence);
  const other = wilsonLimits(second.share, second.trials, confidence);
  const difference = first.share - second.share;
  return {
    lower: difference - Math.hypot(first.share - one.lower, other.upper - second.share),
    upper: difference + Math.hypot(one.upper - first.share, second.share - other.lower),
  };
}
