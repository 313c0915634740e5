/** How far two graders agree beyond chance. */
import { InputError, requireFraction, requireOneOf } from "../input-error.ts";
import { normalQuantile } from "../numeric/normal-distribution.ts";
import { requireCounts } from "./count-table.ts";
import { sum } from "./moments.ts";
import { columnsOf } from "./table-of-values.ts";

export type Kappa = {
  kappa: number;
  observedAgreement: number;
  expectedAgreement: number;
  standardError: number;
  lower: number;
  upper: number;
};
type Graded = { table: number[][]; confidence: number };

/**
 * Cohen's kappa: only the same grade counts as agreement.
 *
 * Method   agreement.cohenKappa
 * Formula  kappa = (observed - chance agreement) / (1 - chance agreement); normal limits with the large-sample standard error
 * Units    counts of coupons; rows one grader's grades, columns the other's; limits are not clipped
 * Source   Cohen 1960; standard error of Fleiss, Cohen and Everitt 1969
 * Status   computed
 * Holds    for grades without order; ordered grades belong to the weighted kappa
 * Refuses  a table that is not square or is empty; chance agreement that is complete; a confidence not between 0 and 1
 */
export function cohenKappa({ table, confidence }: Graded): Kappa {
  return kappaWith(table, confidence, (row, column) => (row === column ? 1 : 0));
}

/** How much a near miss counts: by its distance in grades, or by the distance squared. */
const weightings = ["linear", "quadratic"] as const;

/**
 * Weighted kappa: a near miss counts as part agreement.
 *
 * Method   agreement.weightedKappa
 * Formula  as Cohen's with agreement weights 1 - d/(k-1) ("linear") or 1 - (d/(k-1))² ("quadratic")
 * Units    counts of coupons; rows one grader's grades in order, columns the other's; limits are not clipped
 * Source   Cohen 1968; standard error of Fleiss, Cohen and Everitt 1969
 * Status   computed
 * Holds    for ordered grades a step apart
 * Refuses  as Cohen's kappa; other weights
 */
export function weightedKappa(graded: Graded & { weights: (typeof weightings)[number] }): Kappa {
  requireOneOf("weights", graded.weights, weightings);
  const power = graded.weights === "linear" ? 1 : 2;
  const grades = Array.isArray(graded.table) ? graded.table.length : 0;
  return kappaWith(
    graded.table,
    graded.confidence,
    (row, column) => 1 - (Math.abs(row - column) / (grades - 1)) ** power,
  );
}

function kappaWith(table: number[][], confidence: number, weight: (row: number, column: number) => number): Kappa {
  requireCounts("table", table, { rows: 2, columns: 2 });
  if (table.length !== table[0]!.length) throw new InputError("table", table, "as many columns as rows");
  requireFraction("confidence", confidence);
  const total = sum(table.flat());
  if (total === 0) throw new InputError("table", table, "a table with at least one coupon");
  const share = table.map((row) => row.map((count) => count / total));
  const rows = share.map(sum);
  const columns = columnsOf(share).map(sum);
  const over = (value: (row: number, column: number) => number) =>
    sum(share.flatMap((row, at) => row.map((_, column) => value(at, column))));
  const observedAgreement = over((row, column) => weight(row, column) * share[row]![column]!);
  const expectedAgreement = over((row, column) => weight(row, column) * rows[row]! * columns[column]!);
  const left = 1 - expectedAgreement;
  if (left < 1e-12) throw new InputError("table", table, "grades that differ: chance agreement is complete here");
  const kappa = (observedAgreement - expectedAgreement) / left;
  // Mean weight of what the other grader might have said to a grade.
  const meanOfRow = rows.map((_, row) => sum(columns.map((one, column) => one * weight(row, column))));
  const meanOfColumn = columns.map((_, column) => sum(rows.map((one, row) => one * weight(row, column))));
  const squares = over(
    (row, column) =>
      share[row]![column]! * (weight(row, column) - (meanOfRow[row]! + meanOfColumn[column]!) * (1 - kappa)) ** 2,
  );
  const variance = (squares - (kappa - expectedAgreement * (1 - kappa)) ** 2) / total;
  // Full agreement has no variance; the difference above then leaves a rounding error of either sign.
  const standardError = Math.sqrt(Math.max(0, variance)) / left;
  const half = normalQuantile((1 - confidence) / 2, "upper") * standardError;
  return { kappa, observedAgreement, expectedAgreement, standardError, lower: kappa - half, upper: kappa + half };
}
