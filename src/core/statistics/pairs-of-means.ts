/** Every pair of groups at once, with one error rate for all pairs. */
import { requireFraction } from "../input-error.ts";
import { studentizedRangeQuantile, studentizedRangeSf } from "../numeric/studentized-range-distribution.ts";
import { withinGroups } from "./anova-one-way.ts";
import { centred, mean, requireScatter, sumOfSquares } from "./moments.ts";
import { requireGroups } from "./table-of-values.ts";
import { welchError } from "./welch-t.ts";

/** Mean of the first group less mean of the second; groups count from 0. */
export type PairOfMeans = {
  first: number;
  second: number;
  difference: number;
  lower: number;
  upper: number;
  p: number;
};
type Compared = { groups: number[][]; confidence: number };

/**
 * All pairs of means by Tukey's honest significant difference.
 *
 * Method   means.tukeyHsd
 * Formula  q = |difference| / √(MSwithin (1/n1 + 1/n2) / 2) against the studentized range of all groups
 * Units    any, the same in all groups; confidence as a fraction, for all pairs together
 * Source   Tukey 1953; Kramer 1956 for unequal groups
 * Status   computed
 * Holds    for values that scatter alike in all groups
 * Refuses  one group; an empty group; one value per group; no scatter; a confidence not between 0 and 1
 */
export function tukeyHsd({ groups, confidence }: Compared): { pairs: PairOfMeans[] } {
  requireGroups("groups", groups, 1);
  requireFraction("confidence", confidence);
  const { ssWithin, dfWithin } = withinGroups(groups);
  const meanSquare = ssWithin / dfWithin;
  const shape = { groups: groups.length, df: dfWithin };
  const critical = studentizedRangeQuantile(1 - confidence, shape, "upper");
  return {
    pairs: pairsOf(groups, (a, b) => ({
      squaredError: meanSquare * (1 / a.length + 1 / b.length),
      df: dfWithin,
      critical,
    })),
  };
}

/**
 * All pairs of means without equal scatter.
 *
 * Method   means.gamesHowell
 * Formula  q = |difference| / √((s1²/n1 + s2²/n2) / 2) against the studentized range with Welch's degrees of freedom per pair
 * Units    any, the same in all groups; confidence as a fraction, for all pairs together
 * Source   Games and Howell 1976
 * Status   computed
 * Holds    from about five values per group; with fewer it is somewhat too bold
 * Refuses  one group; a group of fewer than two values; two groups without scatter; a confidence not between 0 and 1
 */
export function gamesHowell({ groups, confidence }: Compared): { pairs: PairOfMeans[] } {
  requireGroups("groups", groups, 2);
  requireFraction("confidence", confidence);
  return {
    pairs: pairsOf(groups, (a, b) => {
      requireScatter("groups", sumOfSquares(a) + sumOfSquares(b), [...a, ...b], "pairs of which one group scatters");
      const { squaredError, df } = welchError(a, b);
      const shape = { groups: groups.length, df };
      return { squaredError, df, critical: studentizedRangeQuantile(1 - confidence, shape, "upper") };
    }),
  };
}

/** Pairs 0-1, 0-2, ..., 1-2, ...; `errorOf` gives the squared standard error of the difference. */
function pairsOf(
  groups: number[][],
  errorOf: (a: number[], b: number[]) => { squaredError: number; df: number; critical: number },
): PairOfMeans[] {
  const means = centred(groups).map(mean);
  return groups.flatMap((a, first) =>
    groups.slice(first + 1).map((b, offset) => {
      const second = first + 1 + offset;
      const { squaredError, df, critical } = errorOf(a, b);
      const unit = Math.sqrt(squaredError / 2);
      const difference = means[first]! - means[second]!;
      return {
        first,
        second,
        difference,
        lower: difference - critical * unit,
        upper: difference + critical * unit,
        p: studentizedRangeSf(Math.abs(difference) / unit, { groups: groups.length, df }),
      };
    }),
  );
}
