/** Are two groups the same, near enough, by their ranks alone? */
import { hodgesLehmann } from "./hodges-lehmann.ts";
import { type Margins, reaches, requireMargins } from "./two-one-sided.ts";
import { requireValues } from "./value-list.ts";
import { rankSumTest } from "./wilcoxon-exact.ts";

/**
 * Equivalence of two groups by two one-sided exact rank-sum tests.
 *
 * Method   comparison.tostRank
 * Formula  exact rank-sum test of first - marginLower against second, P(U >= u), and of first - marginUpper, P(U <= u); p the larger;
 *          estimate and interval of Hodges and Lehmann at 1 - 2 alpha
 * Units    of the values; alpha and p shares
 * Source   Schuirmann 1987 for the two tests, Wilcoxon 1945 for each
 * Status   computed
 * Holds    when the margin was chosen before the data; 2 against 2 never reaches 0.05 whatever the margin, 3 against 3 just does
 * Refuses  an empty group, margins not in order, an alpha not between 0 and 0.5
 */
export function tostRank({ first, second, ...margins }: { first: number[]; second: number[] } & Margins) {
  requireValues("first", first);
  requireValues("second", second);
  requireMargins(margins);
  const { marginLower, marginUpper, alpha } = margins;
  const still = second.map(toNinePlaces);
  const shifted = (margin: number) =>
    rankSumTest(
      first.map((value) => toNinePlaces(value - margin)),
      still,
    );
  const pLower = shifted(marginLower).exactPGreater;
  const pUpper = shifted(marginUpper).exactPLess;
  const p = Math.max(pLower, pUpper);
  const { estimate, lower, upper } = hodgesLehmann({ first, second, confidence: 1 - 2 * alpha });
  return { pLower, pUpper, p, equivalent: reaches(p, alpha), estimate, intervalLower: lower, intervalUpper: upper };
}

/** 0.3 + 0.6 and 0.9 must tie. */
function toNinePlaces(value: number): number {
  return Math.round(value * 1e9) / 1e9;
}
