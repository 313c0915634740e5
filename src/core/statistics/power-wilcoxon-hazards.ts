/** Chance that the rank-sum test tells two groups apart whose rust comes at rates of a fixed ratio. */
import { InputError, requireFraction, requirePositive, requireWhole } from "../input-error.ts";
import { tails } from "./exact-distribution.ts";
import { rankSumsWithoutTies } from "./hodges-lehmann.ts";
import { reaches } from "./two-one-sided.ts";

const largestWork = 1e7;

/**
 * Power of the exact rank-sum test under proportional hazards, without censoring.
 *
 * Method   power.wilcoxonProportionalHazards
 * Formula  the next to rust is of the first group with chance a h / (a h + b), a and b the numbers left, h the hazard ratio;
 *          power = chance of all orders whose exact two-sided p is at most alpha
 * Units    sizes in coupons treated separately; hazardRatio first over second (Weibull: time factor to the power -shape)
 * Source   Lehmann 1953
 * Status   computed
 * Holds    when each coupon is watched until it rusts; looks that are far apart cost power
 * Refuses  an empty group, a hazard ratio not above 0, an alpha not between 0 and 1, groups too large to go through
 */
export function wilcoxonProportionalHazards(plan: { n1: number; n2: number; hazardRatio: number; alpha: number }) {
  const { n1, n2, hazardRatio, alpha } = plan;
  requireWhole("n1", n1, 1);
  requireWhole("n2", n2, 1);
  requirePositive("hazardRatio", hazardRatio);
  requireFraction("alpha", alpha);
  if ((n1 * n2) ** 2 > largestWork) throw new InputError("n1", n1, "groups of up to 56 coupons");
  const untied = rankSumsWithoutTies(n1, n2);
  let power = 0;
  for (const [u, chance] of chancesOfU(n1, n2, hazardRatio).entries())
    if (chance > 0 && reaches(tails(untied, u, { total: n1 * n2, parts: 2 }).exactP, alpha)) power += chance;
  return { power };
}

/** Chance of each u = pairs in which the first rusts later, by how many of the second have rusted before each of the first. */
function chancesOfU(n1: number, n2: number, hazardRatio: number): number[] {
  // left[b][u]: chance to be here with a of the first and b of the second left; a goes down from row to row.
  let left = Array.from({ length: n2 + 1 }, () => Array.from({ length: n1 * n2 + 1 }, () => 0));
  left[n2]![0] = 1;
  for (let a = n1; a >= 0; a--) {
    const next = left.map((row) => row.map(() => 0));
    for (let b = n2; b >= 0; b--) {
      const first = a === 0 ? 0 : (a * hazardRatio) / (a * hazardRatio + b);
      for (const [u, chance] of left[b]!.entries()) {
        if (chance === 0) continue;
        if (a > 0) next[b]![u + n2 - b]! += chance * first;
        if (b > 0) left[b - 1]![u]! += chance * (1 - first);
      }
    }
    if (a === 0) break;
    left = next;
  }
  return left[0]!;
}
