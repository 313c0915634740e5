/** Two groups, two outcomes, within blocks. */
import { InputError, requireList } from "../input-error.ts";
import { chi2Sf } from "../numeric/chi2-distribution.ts";
import { requireTwoByTwo, type TwoByTwo } from "./count-table.ts";

/**
 * Cochran-Mantel-Haenszel test over 2 x 2 tables, one per block.
 *
 * Method   proportion.cmh
 * Formula  chi2 = (|Σ (a - E a)| - c)² / Σ Var a, c = min(1/2, |Σ (a - E a)|) with the continuity correction, else 0;
 *          common odds ratio Σ (a d / n) / Σ (b c / n)
 * Units    counts in; rows are groups, columns outcomes
 * Source   Mantel and Haenszel 1959
 * Status   computed
 * Holds    when the odds ratio is alike in all blocks; commonOddsRatio is null where it is not finite
 * Refuses  no strata; a table that is not 2 x 2; no stratum with both groups and both outcomes in it
 */
export function cochranMantelHaenszel({ strata, continuity }: { strata: readonly TwoByTwo[]; continuity: boolean }): {
  chi2: number;
  p: number;
  commonOddsRatio: number | null;
} {
  requireList("strata", strata);
  if (typeof continuity !== "boolean") throw new InputError("continuity", continuity, "true or false");
  let excess = 0;
  let variance = 0;
  let concordant = 0;
  let discordant = 0;
  for (const [at, stratum] of strata.entries()) {
    requireTwoByTwo(`strata[${at}]`, stratum);
    const [[a, b], [c, d]] = stratum;
    const n = a + b + c + d;
    // A block of one coupon, or none, says nothing.
    if (n < 2) continue;
    excess += a - ((a + b) * (a + c)) / n;
    variance += ((a + b) * (c + d) * (a + c) * (b + d)) / (n * n * (n - 1));
    concordant += (a * d) / n;
    discordant += (b * c) / n;
  }
  if (variance === 0) throw new InputError("strata", strata, "a stratum with both groups and both outcomes in it");
  const correction = continuity ? Math.min(0.5, Math.abs(excess)) : 0;
  const chi2 = (Math.abs(excess) - correction) ** 2 / variance;
  return { chi2, p: chi2Sf(chi2, 1), commonOddsRatio: discordant === 0 ? null : concordant / discordant };
}
