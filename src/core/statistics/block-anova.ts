/** Treatments compared within blocks: every block holds each treatment once. */
import { fSf } from "../numeric/f-distribution.ts";
import { centred, mean, requireScatter, sum } from "./moments.ts";
import { columnsOf, requireTable } from "./table-of-values.ts";

/**
 * Analysis of variance of randomised complete blocks.
 *
 * Method   statistics.blockAnova, means.randomizedBlockAnova
 * Formula  value = block + treatment + error; F = mean square of treatments / mean square of error;
 *          relativeEfficiency = ((b-1) MSblock + b (k-1) MSerror) / ((bk-1) MSerror) against a trial without blocks
 * Units    any; one row per block, one column per treatment
 * Source   randomised complete blocks, additive model
 * Status   computed
 * Holds    when a treatment acts alike in all blocks; percent areas and strokes as logarithms
 * Refuses  ragged rows or a missing cell; one block; one treatment; no scatter beside blocks and treatments
 */
export function blockAnova({ rows }: { rows: number[][] }) {
  requireTable("rows", rows, { rows: 2, columns: 2 });
  const blocks = rows.length;
  const treatments = rows[0]!.length;
  const values = centred(rows);
  const grand = mean(values.flat());
  const blockMeans = values.map(mean);
  const treatmentMeans = columnsOf(values).map(mean);
  const ssBlock = treatments * squaresFrom(grand, blockMeans);
  const ssTreatment = blocks * squaresFrom(grand, treatmentMeans);
  const ssError = sum(
    values.flatMap((row, block) =>
      row.map((value, treatment) => (value - blockMeans[block]! - treatmentMeans[treatment]! + grand) ** 2),
    ),
  );
  requireScatter("rows", ssError, rows.flat(), "values that scatter beside their blocks and treatments");
  const dfTreatment = treatments - 1;
  const dfBlock = blocks - 1;
  const dfError = dfTreatment * dfBlock;
  const msError = ssError / dfError;
  const f = ssTreatment / dfTreatment / msError;
  return {
    ssTreatment,
    ssBlock,
    ssError,
    dfTreatment,
    dfBlock,
    dfError,
    f,
    p: fSf(f, dfTreatment, dfError),
    treatmentMeans: columnsOf(rows).map(mean),
    standardErrorDifference: Math.sqrt((2 * msError) / blocks),
    relativeEfficiency: (ssBlock + blocks * dfTreatment * msError) / ((blocks * treatments - 1) * msError),
  };
}

function squaresFrom(middle: number, means: readonly number[]): number {
  return sum(means.map((one) => (one - middle) ** 2));
}
