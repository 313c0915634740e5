/** Several treatments against one control, with one common error. */
import { InputError, requireFraction, requireList } from "../input-error.ts";
import { brentRoot } from "../numeric/brent.ts";
import { tQuantile } from "../numeric/t-distribution.ts";
import { dunnettTail } from "./dunnett-tail.ts";
import { mean, requireScatter, sumOfSquares } from "./moments.ts";
import { requireValues } from "./value-list.ts";

/**
 * Dunnett's comparisons with a control, single step.
 *
 * Method   comparison.dunnett
 * Formula  t_i = (mean_i - mean_0) / (s √(1/n_i + 1/n_0)), s pooled over all groups, df = N - groups; adjustedP = P(max |T| >= |t_i|);
 *          lower, upper = difference ± critical s √(1/n_i + 1/n_0), simultaneous
 * Units    of the values; confidence and p shares; differences treatment less control
 * Source   Dunnett 1955
 * Status   computed
 * Holds    for one scatter in all groups; a treatment with one coupon borrows its scatter from the others
 * Refuses  no treatments, an empty group, no degrees of freedom, no scatter, a confidence not between 0 and 1
 */
export function dunnett({
  control,
  treatments,
  confidence,
}: {
  control: number[];
  treatments: number[][];
  confidence?: number;
}) {
  const { differences, errors, pooledSd, loadings, df, t } = controlComparisons(control, treatments);
  const adjustedP = t.map((one) => dunnettTail(Math.abs(one), loadings, df));
  const plain = { differences, pooledSd, df, t, adjustedP };
  if (confidence === undefined) return plain;
  requireFraction("confidence", confidence);
  const critical = criticalT(1 - confidence, loadings, df);
  return {
    ...plain,
    critical,
    lower: differences.map((difference, at) => difference - critical * errors[at]!),
    upper: differences.map((difference, at) => difference + critical * errors[at]!),
  };
}

/** Differences from the control, their standard errors and t, with the pooled error of all groups. */
export function controlComparisons(control: number[], treatments: number[][]) {
  requireValues("control", control);
  requireList("treatments", treatments);
  for (const [at, one] of treatments.entries()) requireValues(`treatments[${at}]`, one);
  const groups = [control, ...(treatments as number[][])];
  const values = groups.flat();
  const df = values.length - groups.length;
  if (df < 1)
    throw new InputError(
      "treatments",
      groups.map((group) => group.length),
      "two coupons in at least one group",
    );
  const squares = groups.reduce((sum, group) => sum + sumOfSquares(group), 0);
  requireScatter("control", squares, values, "groups of which at least one scatters");
  const pooledSd = Math.sqrt(squares / df);
  const sizes = treatments.map((group) => (group as number[]).length);
  const errors = sizes.map((size) => pooledSd * Math.sqrt(1 / size + 1 / control.length));
  const differences = (treatments as number[][]).map((group) => mean(group) - mean(control));
  // The correlation of two t is the product of their loadings.
  const loadings = sizes.map((size) => Math.sqrt(size / (size + control.length)));
  return {
    differences,
    errors,
    pooledSd,
    loadings,
    df,
    t: differences.map((difference, at) => difference / errors[at]!),
  };
}

/** The t that the largest |T| passes with the chance `p`: between that of one comparison and that of Bonferroni. */
function criticalT(p: number, loadings: readonly number[], df: number): number {
  const single = tQuantile(p / 2, df, "upper");
  if (loadings.length === 1) return single;
  const bonferroni = tQuantile(p / (2 * loadings.length), df, "upper");
  return brentRoot((t) => Math.log(dunnettTail(t, loadings, df) / p), single, bonferroni, 1e-9);
}
