/** Chance that Fisher's exact test tells two shares apart. */
import { InputError, requireFraction, requireWhole } from "../input-error.ts";
import { binomialPmf } from "../numeric/binomial-distribution.ts";
import { hypergeometricLogPmf, hypergeometricRange } from "../numeric/hypergeometric-distribution.ts";
import { equallyLikely } from "./count-table.ts";
import { reaches } from "./two-one-sided.ts";

/**
 * Power of Fisher's two-sided exact test.
 *
 * Method   power.twoProportionsExact
 * Formula  sum of the binomial probabilities of all tables whose Fisher p (tables not more probable than the one seen) is at most alpha
 * Units    p1, p2 shares 0 to 1; sizes in coupons treated separately
 * Source   Fisher 1934; binomial distribution
 * Status   computed
 * Holds    exactly; the true size is far below alpha (8 and 8 at 0.5: 0.021)
 * Refuses  a share outside 0 to 1, an empty group, an alpha not between 0 and 1
 */
export function twoProportionsExact(plan: { p1: number; p2: number; n1: number; n2: number; alpha: number }) {
  const { p1, p2, n1, n2, alpha } = plan;
  requireShare("p1", p1);
  requireShare("p2", p2);
  requireWhole("n1", n1, 1);
  requireWhole("n2", n2, 1);
  requireFraction("alpha", alpha);
  let power = 0;
  for (let total = 0; total <= n1 + n2; total++) {
    const { least, p } = fisherPValues({ population: n1 + n2, successes: total, draws: n1 });
    for (const [at, value] of p.entries()) {
      if (!reaches(value, alpha)) continue;
      const first = least + at;
      power += binomialPmf(first, { n: n1, prob: p1 }) * binomialPmf(total - first, { n: n2, prob: p2 });
    }
  }
  return { power };
}

function requireShare(argument: string, value: number): void {
  if (typeof value !== "number" || !(value >= 0 && value <= 1))
    throw new InputError(argument, value, "a share from 0 to 1");
}

/** Two-sided p of each table with these margins, from the least count of the first group on. */
function fisherPValues(draw: { population: number; successes: number; draws: number }) {
  const { least, most } = hypergeometricRange(draw);
  const chances = Array.from({ length: most - least + 1 }, (_, at) => Math.exp(hypergeometricLogPmf(least + at, draw)));
  // Tables of one probability differ in their last digits.
  const p = chances.map((seen) =>
    chances.reduce((sum, chance) => (chance <= seen * (1 + equallyLikely) ? sum + chance : sum), 0),
  );
  return { least, p };
}
