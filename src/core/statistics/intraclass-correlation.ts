/** How far several graders give the same value to the same coupon. */
import { InputError, requireFraction } from "../input-error.ts";
import { fQuantile } from "../numeric/f-distribution.ts";
import { centred, mean, requireScatter, sum, sumOfSquares } from "./moments.ts";
import { columnsOf, requireTable } from "./table-of-values.ts";

/**
 * Intraclass correlation of single ratings, graders taken at random, absolute agreement.
 *
 * Method   agreement.icc21
 * Formula  (MSr - MSe) / (MSr + (k-1) MSe + k (MSc - MSe)/n); n coupons, k graders, limits from F
 * Units    any; one row per coupon, one value per grader
 * Source   Shrout and Fleiss 1979, ICC(2,1); limits of McGraw and Wong 1996
 * Status   computed
 * Holds    for measured values such as log area; it rises with the spread of the coupons, so name the coupons
 * Refuses  a missing rating; one grader; one coupon; no scatter; a confidence not between 0 and 1
 */
export function icc21({ ratings, confidence }: { ratings: number[][]; confidence: number }) {
  requireTable("ratings", ratings, { rows: 2, columns: 2 });
  requireFraction("confidence", confidence);
  requireScatter("ratings", sumOfSquares(ratings.flat()), ratings.flat(), "ratings that differ");
  const { msRows, msColumns, msError } = meanSquares(ratings);
  const n = ratings.length;
  const k = ratings[0]!.length;
  const whole = msRows + (k - 1) * msError + (k * (msColumns - msError)) / n;
  // Coupons alike and graders alike, only error: the denominator can vanish, and nothing is left to correlate.
  if (whole <= 0) throw new InputError("ratings", ratings, "coupons or graders that differ beyond the error");
  const icc = (msRows - msError) / whole;
  const side = (1 - confidence) / 2;
  const df = satterthwaite({ icc, n, k, msColumns, msError });
  const others = k * msColumns + (k * n - k - n) * msError;
  const below = fQuantile(side, n - 1, df, "upper");
  const above = fQuantile(side, df, n - 1, "upper");
  return {
    icc,
    lower: (n * (msRows - below * msError)) / (below * others + n * msRows),
    upper: (n * (above * msRows - msError)) / (others + n * above * msRows),
    msRows,
    msColumns,
    msError,
  };
}

function meanSquares(ratings: number[][]) {
  const values = centred(ratings);
  const n = values.length;
  const k = values[0]!.length;
  const grand = mean(values.flat());
  const rows = values.map(mean);
  const columns = columnsOf(values).map(mean);
  const errors = values.flatMap((row, at) => row.map((value, column) => value - rows[at]! - columns[column]! + grand));
  return {
    msRows: (k * sum(rows.map((one) => (one - grand) ** 2))) / (n - 1),
    msColumns: (n * sum(columns.map((one) => (one - grand) ** 2))) / (k - 1),
    msError: sum(errors.map((one) => one * one)) / ((n - 1) * (k - 1)),
  };
}

/** Degrees of freedom of the mixture of grader and error mean squares. */
function satterthwaite(of: { icc: number; n: number; k: number; msColumns: number; msError: number }): number {
  const { icc, n, k, msColumns, msError } = of;
  // Times n (1 - icc): full agreement would divide by 0, and the common factor cancels.
  const graders = k * icc * msColumns;
  const error = (n * (1 - icc) + k * icc * (n - 1)) * msError;
  // Full agreement leaves neither; the limits are 1 whatever the degrees of freedom.
  if (graders === 0 && error === 0) return n - 1;
  return (graders + error) ** 2 / (graders ** 2 / (k - 1) + error ** 2 / ((n - 1) * (k - 1)));
}
