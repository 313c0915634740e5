/** How well graders, sessions or laboratories agree with themselves and with each other, ASTM E691. */
import { requireWhole } from "../input-error.ts";
import { fQuantile } from "../numeric/f-distribution.ts";
import { tQuantile } from "../numeric/t-distribution.ts";
import { mean, requireScatter, sum, sumOfSquares, variance } from "./moments.ts";
import { requireTable } from "./table-of-values.ts";

/** ASTM E691 / E177: two results of one material differ by more in about 5 % of cases. */
const limitFactor = 2.8;

/**
 * Repeatability and reproducibility of one material.
 *
 * Method   statistics.e691
 * Formula  sr = √(mean s²); sR = √(sx² + sr² (n-1)/n), not below sr; limits 2.8 s; h = (x - mean) / sx; k = s / sr
 * Units    those of the values; one row of replicates per laboratory, grader or session
 * Source   ASTM E691; formulas from memory, which reproduce its published serum glucose statistics
 * Status   computed
 * Holds    for at least six laboratories (from memory); within one shop a laboratory is a grader or a session
 * Refuses  unequal replicates; one replicate; one laboratory; no scatter within cells, or between their means
 */
export function e691({ cells }: { cells: number[][] }) {
  requireTable("cells", cells, { rows: 2, columns: 2 });
  const replicates = cells[0]!.length;
  const cellMeans = cells.map(mean);
  const cellVariances = cells.map(variance);
  requireScatter("cells", sum(cells.map(sumOfSquares)), cells.flat(), "replicates that scatter");
  requireScatter("cells", sumOfSquares(cellMeans), cells.flat(), "cells whose means differ");
  const cellMeanSd = Math.sqrt(variance(cellMeans));
  const repeatabilitySd = Math.sqrt(mean(cellVariances));
  const betweenAndWithin = Math.sqrt(cellMeanSd ** 2 + (repeatabilitySd ** 2 * (replicates - 1)) / replicates);
  const reproducibilitySd = Math.max(betweenAndWithin, repeatabilitySd);
  const grandMean = mean(cellMeans);
  return {
    mean: grandMean,
    cellMeanSd,
    repeatabilitySd,
    reproducibilitySd,
    repeatabilityLimit: limitFactor * repeatabilitySd,
    reproducibilityLimit: limitFactor * reproducibilitySd,
    h: cellMeans.map((one) => (one - grandMean) / cellMeanSd),
    k: cellVariances.map((one) => Math.sqrt(one) / repeatabilitySd),
  };
}

/**
 * Beyond which h and k a laboratory stands out.
 *
 * Method   statistics.e691Critical
 * Formula  h = (p-1) t / √(p (t² + p - 2)), t = t(0.9975; p-2); k = √(p / (1 + (p-1)/F)), F = F(0.995; n-1, (p-1)(n-1))
 * Units    p laboratories, n replicates
 * Source   ASTM E691, 0.5 % level; formulas from memory, equal to the printed 2.15 and 2.06 at p 8, n 3
 * Status   memory
 * Holds    as a flag to look closer, not as a reason to drop a laboratory
 * Refuses  fewer than three laboratories or two replicates; counts that are not whole
 */
export function e691Critical({ laboratories, replicates }: { laboratories: number; replicates: number }): {
  h: number;
  k: number;
} {
  requireWhole("laboratories", laboratories, 3);
  requireWhole("replicates", replicates, 2);
  const others = laboratories - 1;
  const t = tQuantile(0.0025, laboratories - 2, "upper");
  const f = fQuantile(0.005, replicates - 1, others * (replicates - 1), "upper");
  return {
    h: (others * t) / Math.sqrt(laboratories * (t * t + laboratories - 2)),
    k: Math.sqrt(laboratories / (1 + others / f)),
  };
}
