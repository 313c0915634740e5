/**
 * How early each coupon rusted, as one number: the scores that the log-rank permutation tests add up.
 *
 * Units    none (scores)
 * Source   Finkelstein 1986; Peto and Peto 1972
 * Status   memory
 */
import type { InspectionInterval } from "./inspection-interval.ts";
import { turnbullEstimate } from "./turnbull.ts";

/**
 * c = [S(l) ln S(l) - S(r) ln S(r)] / [S(l) - S(r)] with S the pooled Turnbull estimate and 0 ln 0 = 0, in the order given:
 * near 1 for the first to rust, negative for the last, ln S(l) for a coupon never seen to rust; the sum is 0.
 * The scores of the proportional-hazards model (Finkelstein 1986; Peto and Peto 1972). Observations must be checked.
 */
export function logRankScores(observations: readonly InspectionInterval[]): number[] {
  const { cells, spans, which } = turnbullEstimate(observations);
  // after[j]: mass of the cells behind the first j.
  const after = new Float64Array(cells.length + 1);
  for (let at = cells.length - 1; at >= 0; at--) after[at] = after[at + 1]! + cells[at]!.mass;
  const scores = spans.map(({ first, last }) => {
    let inside = 0;
    for (let at = first; at <= last; at++) inside += cells[at]!.mass;
    return score(inside, after[last + 1]!);
  });
  return which.map((one) => scores[one]!);
}

/** The same fraction written without a difference of nearly equal numbers. */
function score(inside: number, survivalAtRight: number): number {
  const survivalAtLeft = survivalAtRight + inside;
  // ln 1 would be a rounding error: the first to rust stands at S = 1 exactly.
  const start = Math.log(Math.min(1, survivalAtLeft));
  return survivalAtRight === 0 ? start : start - (survivalAtRight / inside) * Math.log1p(-inside / survivalAtLeft);
}
