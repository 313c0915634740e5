/** From a method's id to its function: what `check cases` runs. Grows with the rooms of core. */
import { InputError, requireOneOf } from "../core/input-error.ts";
import { betaDistribution } from "../core/numeric/beta-distribution.ts";
import { binomialDistribution } from "../core/numeric/binomial-distribution.ts";
import { chi2Distribution } from "../core/numeric/chi2-distribution.ts";
import { fDistribution } from "../core/numeric/f-distribution.ts";
import { gammaDistribution } from "../core/numeric/gamma-distribution.ts";
import { hypergeometricDistribution } from "../core/numeric/hypergeometric-distribution.ts";
import { regularizedIncompleteBeta } from "../core/numeric/incomplete-beta.ts";
import { noncentralTDistribution } from "../core/numeric/noncentral-t-distribution.ts";
import { normalDistribution } from "../core/numeric/normal-distribution.ts";
import { studentizedRangeDistribution } from "../core/numeric/studentized-range-distribution.ts";
import { tDistribution } from "../core/numeric/t-distribution.ts";
import { d610Grade } from "../core/rating/d610-grade.ts";
import { cliffsDelta } from "../core/statistics/cliffs-delta.ts";
import { hodgesLehmann } from "../core/statistics/hodges-lehmann.ts";
import { logRankPermutation } from "../core/statistics/log-rank-permutation.ts";
import { turnbull } from "../core/statistics/turnbull.ts";
import { wilcoxonExact } from "../core/statistics/wilcoxon-exact.ts";

// Each method takes the named arguments of its cases and returns its named results; `never` lets every typed function stand here.
type Method = (input: never) => unknown;

export const methodTable: Readonly<Record<string, Method>> = {
  "distribution.beta": betaDistribution,
  "distribution.binomial": binomialDistribution,
  "distribution.chi2": chi2Distribution,
  "distribution.f": fDistribution,
  "distribution.gamma": gammaDistribution,
  "distribution.hypergeometric": hypergeometricDistribution,
  "distribution.noncentralT": noncentralTDistribution,
  "distribution.normal": normalDistribution,
  "distribution.regularizedIncompleteBeta": regularizedIncompleteBeta,
  "distribution.studentizedRange": studentizedRangeDistribution,
  "distribution.t": tDistribution,
  "rating.rustGradeFromAreaPercent": ({ areaPercent, standard }: { areaPercent: number; standard: string }) => {
    requireOneOf("standard", standard, ["ASTM D610"]);
    if (standard !== "ASTM D610") throw new InputError("standard", standard, '"ASTM D610"');
    return { grade: d610Grade(areaPercent) };
  },
  "survival.turnbull": turnbull,
  "comparison.logRankPermutation": logRankPermutation,
  "comparison.wilcoxonExact": wilcoxonExact,
  "comparison.hodgesLehmann": hodgesLehmann,
  "comparison.cliffsDelta": cliffsDelta,
};
