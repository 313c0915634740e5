/** What a design can show at best, before a minute is spent. */
import { InputError, requireFraction, requireList, requireWhole } from "../input-error.ts";
import { allocationCount } from "./allocations.ts";
import { reaches } from "./two-one-sided.ts";

type BlockSizes = { n1: number; n2: number };

/**
 * Smallest two-sided exact p that a design allows.
 *
 * Method   power.smallestPossibleP
 * Formula  allocations N = product over blocks of (n1 + n2 over n1); smallest p = 2 / N, 1 when N is 2; times the comparisons, at most 1
 * Units    sizes in coupons treated separately; shares
 * Source   permutation distribution of a symmetric statistic
 * Status   computed
 * Holds    without ties; ties raise it, unequal groups with skewed values can halve it
 * Refuses  no blocks, a block without one of the treatments, an alpha not between 0 and 1, comparisons below 1
 */
export function smallestPossibleP({
  blocks,
  alpha,
  comparisons = 1,
}: {
  blocks: BlockSizes[];
  alpha: number;
  comparisons?: number;
}) {
  requireList("blocks", blocks);
  for (const [at, { n1, n2 }] of (blocks as BlockSizes[]).entries()) {
    requireWhole(`blocks[${at}].n1`, n1, 1);
    requireWhole(`blocks[${at}].n2`, n2, 1);
  }
  requireFraction("alpha", alpha);
  requireWhole("comparisons", comparisons, 1);
  const allocations = (blocks as BlockSizes[]).reduce((product, { n1, n2 }) => product * allocationCount([n1, n2]), 1);
  if (!Number.isFinite(allocations)) throw new InputError("blocks", blocks, "fewer than about 1000 coupons");
  const smallestP = Math.min(1, 2 / allocations);
  const smallestAdjustedP = Math.min(1, comparisons * smallestP);
  return { allocations, smallestP, smallestAdjustedP, canReachAlpha: reaches(smallestAdjustedP, alpha) };
}
