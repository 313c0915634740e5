/** Paired differences by their ranks: more than the sign, less than the value. */
import { requireOneOf } from "../input-error.ts";
import { normalSf } from "../numeric/normal-distribution.ts";
import { signSums, tails } from "./exact-distribution.ts";
import { doubledMidranks } from "./midranks.ts";
import { requireValues } from "./value-list.ts";

/**
 * Exact Wilcoxon signed-rank test.
 *
 * Method   comparison.wilcoxonSignedRank
 * Formula  v = sum of the midranks of |d| over the positive d; exactP = share of all turns of signs with v at least as far from its
 *          mean; asymptoticP from the variance sum of squared ranks / 4
 * Units    any; v a sum of ranks; shares
 * Source   Wilcoxon 1945 (zeros dropped before ranking); Pratt 1959 (ranked with the zeros, then dropped)
 * Status   computed
 * Holds    for differences that scatter evenly about their middle
 * Refuses  no differences, one that is not finite, zeros other than "drop" or "pratt"
 */
export function wilcoxonSignedRank({
  differences,
  zeros = "drop",
}: {
  differences: number[];
  zeros?: "drop" | "pratt";
}) {
  requireValues("differences", differences);
  requireOneOf("zeros", zeros, ["drop", "pratt"]);
  const ranked = zeros === "drop" ? differences.filter((one) => one !== 0) : differences;
  const ranks = doubledMidranks(ranked.map(Math.abs)).map((rank, at) => (ranked[at] === 0 ? 0 : rank));
  // Doubled ranks throughout; a dropped zero has rank 0 and changes nothing.
  const positive = ranks.reduce((sum, rank, at) => (ranked[at]! > 0 ? sum + rank : sum), 0);
  const total = ranks.reduce((sum, rank) => sum + rank, 0);
  const { midP: _, ...shares } = tails(signSums(ranks), positive, { total, parts: 2 });
  const deviation = Math.sqrt(ranks.reduce((sum, rank) => sum + rank * rank, 0)) / 2;
  const asymptoticP = deviation === 0 ? null : 2 * normalSf(Math.abs(positive - total / 2) / deviation);
  return { v: positive / 2, ...shares, asymptoticP };
}
