/** Treatments ranked within blocks. */
import { InputError } from "../input-error.ts";
import { chi2Sf } from "../numeric/chi2-distribution.ts";
import { doubledMidranks, tieTerm } from "./midranks.ts";
import { sum } from "./moments.ts";
import { columnsOf, requireTable } from "./table-of-values.ts";

/**
 * Friedman's test with the chi-square approximation.
 *
 * Method   statistics.friedman
 * Formula  chi2 = (12 Σ R² / (b k (k+1)) - 3 b (k+1)) / (1 - Σ (t³ - t) / (b k (k² - 1))), k - 1 degrees of freedom
 * Units    any order will do; the highest value of a block has the highest rank, ties share
 * Source   Friedman 1937
 * Status   computed
 * Holds    for many blocks; for a handful the exact test says what can be said
 * Refuses  ragged rows; one block; one treatment; all tied in every block
 */
export function friedman({ rows }: { rows: number[][] }): { rankSums: number[]; chi2: number; p: number } {
  requireTable("rows", rows, { rows: 2, columns: 2 });
  const blocks = rows.length;
  const treatments = rows[0]!.length;
  const rankSums = columnsOf(rows.map(doubledMidranks)).map((ranks) => sum(ranks) / 2);
  const ties = sum(rows.map(tieTerm));
  const untied = blocks * treatments * (treatments ** 2 - 1);
  if (ties === untied) throw new InputError("rows", rows, "at least one block in which the values differ");
  // From the mean rank sum, not 12 ΣR² - 3b(k+1): nothing large is subtracted.
  const expected = (blocks * (treatments + 1)) / 2;
  const squares = sum(rankSums.map((rankSum) => (rankSum - expected) ** 2));
  const chi2 = (12 * squares) / (blocks * treatments * (treatments + 1)) / (1 - ties / untied);
  return { rankSums, chi2, p: chi2Sf(chi2, treatments - 1) };
}
