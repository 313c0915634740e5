/** Do these treatments rust alike? Exact for any handful of coupons, with looks that are days apart. */
import { InputError, requireList } from "../input-error.ts";
import { chi2Sf } from "../numeric/chi2-distribution.ts";
import { blockAllocationCount, type DealtBlock, eachAllocation } from "./allocations.ts";
import { type InspectionInterval, requireBlock, requireIntervals } from "./inspection-interval.ts";
import { logRankScores } from "./log-rank-scores.ts";
import { quadraticForm } from "./quadratic-form.ts";

export type BlockedInterval = InspectionInterval & { block?: number | string };

/** Above it `exactP` is null: the count of allocations is still given, and a seeded sample of them is the caller's to draw. */
export const enumeratedAllocations = 300_000;

/**
 * Interval-censored log-rank permutation test of two or more groups, also within blocks.
 *
 * Method   comparison.logRankPermutation
 * Formula  scores of the pooled Turnbull estimate, less their block's mean; U = sums by group, all groups but the last;
 *          V = sum over blocks of n s^2 (diag q - q q'); chi2 = U' V^- U; exactP = share of the allocations that keep the group
 *          sizes of each block with chi2 at least the observed one
 * Units    days in; scores, their sums, counts of allocations and shares out; a positive sum: that group rusts earlier
 * Source   Finkelstein 1986; Peto and Peto 1972; Fay and Shaw 2010
 * Status   computed
 * Holds    when coupons were allotted at random in the way that is counted here, and looks do not depend on the treatment
 * Refuses  fewer than two groups, an empty group, stratified without a block for each coupon
 */
export function logRankPermutation({ groups, stratified }: { groups: BlockedInterval[][]; stratified: boolean }) {
  requireGroups(groups, stratified);
  const coupons = groups.flatMap((group, at) => group.map((one) => ({ ...one, group: at })));
  const scores = logRankScores(coupons);
  const blocks = scoreBlocks(coupons, scores, { groups: groups.length, stratified });
  const covariance = covarianceOf(blocks, groups.length - 1);
  const form = quadraticForm(covariance);
  const groupScoreSums = sumsByGroup(blocks, groups.length);
  const chi2 = form.rank === 0 ? 0 : form.value(groupScoreSums.slice(0, -1));
  const allocations = blockAllocationCount(blocks);
  let next = 0;
  return {
    scores: groups.map((group) => group.map(() => scores[next++]!)),
    groupScoreSums,
    allocations,
    chi2,
    df: form.rank,
    asymptoticP: form.rank === 0 ? 1 : chi2Sf(chi2, form.rank),
    exactP: allocations > enumeratedAllocations ? null : exactShare(blocks, form, chi2, allocations),
  };
}

function requireGroups(groups: BlockedInterval[][], stratified: boolean): void {
  requireList("groups", groups, 2);
  if (typeof stratified !== "boolean") throw new InputError("stratified", stratified, "true or false");
  for (const [at, group] of groups.entries()) {
    requireIntervals(`groups[${at}]`, group);
    if (!stratified) continue;
    for (const [coupon, { block }] of (group as BlockedInterval[]).entries())
      requireBlock(`groups[${at}][${coupon}].block`, block);
  }
}

/** Scores less the block's mean. Coupons of a block stand in the order of their groups: so the observed sums are read off. */
function scoreBlocks(
  coupons: { group: number; block?: number | string }[],
  scores: number[],
  { groups, stratified }: { groups: number; stratified: boolean },
): DealtBlock[] {
  const byBlock = new Map<number | string, { scores: number[]; groupSizes: number[] }>();
  for (const [at, { group, block }] of coupons.entries()) {
    const key = stratified ? block! : "all";
    const found = byBlock.get(key) ?? { scores: [], groupSizes: Array.from({ length: groups }, () => 0) };
    byBlock.set(key, found);
    found.scores.push(scores[at]!);
    found.groupSizes[group]!++;
  }
  return [...byBlock.values()].map(({ scores, groupSizes }) => ({ scores: centred(scores), groupSizes }));
}

/** Tied scores give exact zeros, so that a block that tells nothing adds nothing, not a rounding error. */
function centred(scores: number[]): number[] {
  if (scores.every((score) => Math.abs(score - scores[0]!) < 1e-12)) return scores.map(() => 0);
  const mean = scores.reduce((sum, score) => sum + score, 0) / scores.length;
  return scores.map((score) => score - mean);
}

function sumsByGroup(blocks: DealtBlock[], groups: number): number[] {
  const sums = Array.from({ length: groups }, () => 0);
  for (const { scores, groupSizes } of blocks) {
    let at = 0;
    for (const [group, size] of groupSizes.entries())
      for (const end = at + size; at < end; at++) sums[group]! += scores[at]!;
  }
  return sums;
}

function covarianceOf(blocks: DealtBlock[], size: number): number[][] {
  const result = Array.from({ length: size }, () => Array.from({ length: size }, () => 0));
  for (const { scores, groupSizes } of blocks) {
    const n = scores.length;
    if (n === 1) continue;
    const spread = (n * scores.reduce((sum, x) => sum + x * x, 0)) / (n - 1);
    for (let row = 0; row < size; row++) {
      const q = groupSizes[row]! / n;
      for (let column = 0; column < size; column++)
        result[row]![column]! += spread * ((row === column ? q : 0) - (q * groupSizes[column]!) / n);
    }
  }
  return result;
}

/** Scores never change in a rearrangement; equally far within 1e-9 counts as equally far, whatever the order of the sum. */
function exactShare(
  blocks: DealtBlock[],
  form: { rank: number; value: (sums: ArrayLike<number>) => number },
  chi2: number,
  allocations: number,
): number {
  if (form.rank === 0) return 1;
  const atLeast = chi2 - 1e-9 * Math.max(1, chi2);
  let count = 0;
  eachAllocation(blocks, (sums, ways) => {
    if (form.value(sums) >= atLeast) count += ways;
  });
  return count / allocations;
}
