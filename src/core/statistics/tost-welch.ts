/** Are two means the same, near enough? */
import { mean, requireScatter, sumOfSquares } from "./moments.ts";
import { type Margins, requireMargins, twoOneSided } from "./two-one-sided.ts";
import { requireValues } from "./value-list.ts";
import { welchError } from "./welch-t.ts";

/**
 * Equivalence of two means by two one-sided Welch tests.
 *
 * Method   comparison.tostWelch
 * Formula  tLower = (d - marginLower) / se tested upward, tUpper = (d - marginUpper) / se tested downward; p the larger;
 *          interval d ± t(1 - alpha) se; df by Welch and Satterthwaite
 * Units    of the values; alpha and p shares; difference first less second
 * Source   Schuirmann 1987; Welch 1947
 * Status   computed
 * Holds    when the margin was chosen before the data; for times take logarithms first, then it is a ratio
 * Refuses  fewer than two values in a group, no scatter in either, margins not in order, an alpha not between 0 and 0.5
 */
export function tostWelch({ first, second, ...margins }: { first: number[]; second: number[] } & Margins) {
  requireValues("first", first, 2);
  requireValues("second", second, 2);
  requireMargins(margins);
  requireScatter(
    "first",
    sumOfSquares(first) + sumOfSquares(second),
    [...first, ...second],
    "groups of which at least one scatters",
  );
  const { squaredError, df } = welchError(first, second);
  const difference = mean(first) - mean(second);
  return twoOneSided({ difference, standardError: Math.sqrt(squaredError), df }, margins);
}
