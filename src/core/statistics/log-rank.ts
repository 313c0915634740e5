/** The log-rank test for exact times, with its chi-square approximation. */
import { InputError, requireList } from "../input-error.ts";
import { chi2Sf } from "../numeric/chi2-distribution.ts";
import { requireBlock } from "./inspection-interval.ts";
import { quadraticForm } from "./quadratic-form.ts";
import { requireTimedCoupons, type TimedCoupon } from "./timed-coupon.ts";

export type BlockedTimedCoupon = TimedCoupon & { block?: number | string };
type GroupedCoupon = BlockedTimedCoupon & { group: number };
type Totals = { observed: number[]; expected: number[]; covariance: number[][] };

/**
 * Log-rank (Mantel-Haenszel) test of two or more groups of exactly known times.
 *
 * Method   comparison.logRank
 * Formula  at each event time d n_g / n events expected in group g; covariance d (n - d) / (n - 1) (diag q - q q'), q = n_g / n;
 *          chi2 = U' V^- U over all times and blocks; df = groups with expected events, less one
 * Units    days in, events and shares out
 * Source   Mantel 1966; Peto and Peto 1972
 * Status   computed
 * Holds    for exact times; the chi-square p is poor below about 10 events per group, the permutation test is not
 * Refuses  fewer than two groups, an empty group, a variance of 0 (no events, or one when a single coupon was left), stratified
 *          without a block for each coupon
 */
export function logRank({ groups, stratified }: { groups: BlockedTimedCoupon[][]; stratified: boolean }) {
  requireList("groups", groups, 2);
  if (typeof stratified !== "boolean") throw new InputError("stratified", stratified, "true or false");
  for (const [at, group] of groups.entries()) {
    requireTimedCoupons(`groups[${at}]`, group);
    if (stratified)
      for (const [place, coupon] of (group as BlockedTimedCoupon[]).entries())
        requireBlock(`groups[${at}][${place}].block`, coupon.block);
  }
  const coupons = groups.flatMap((group, at) => group.map((one) => ({ ...one, group: at })));
  const blocks = stratified ? [...new Set(coupons.map((one) => one.block))] : [undefined];
  const totals: Totals = {
    observed: groups.map(() => 0),
    expected: groups.map(() => 0),
    covariance: groups.map(() => groups.map(() => 0)),
  };
  for (const block of blocks) addBlock(totals, stratified ? coupons.filter((one) => one.block === block) : coupons);
  const { observed, expected, covariance } = totals;
  const form = quadraticForm(covariance);
  if (form.rank === 0) throw new InputError("groups", groups, "an event while coupons of both groups are at risk");
  const chi2 = form.value(observed.map((events, at) => events - expected[at]!));
  const df = expected.filter((events) => events > 0).length - 1;
  return { observedEvents: observed, expectedEvents: expected, chi2, df, p: chi2Sf(chi2, df) };
}

function addBlock({ observed, expected, covariance }: Totals, coupons: readonly GroupedCoupon[]): void {
  const groups = observed.map((_, group) => group);
  for (const days of new Set(coupons.filter((one) => one.event).map((one) => one.days))) {
    const atRisk = coupons.filter((one) => one.days >= days);
    const events = atRisk.filter((one) => one.event && one.days === days);
    const [n, d] = [atRisk.length, events.length];
    const share = groups.map((group) => atRisk.filter((one) => one.group === group).length / n);
    const spread = n === 1 ? 0 : (d * (n - d)) / (n - 1);
    for (const group of groups) {
      observed[group]! += events.filter((one) => one.group === group).length;
      expected[group]! += d * share[group]!;
      for (const other of groups)
        covariance[group]![other]! += spread * share[group]! * ((group === other ? 1 : 0) - share[other]!);
    }
  }
}
