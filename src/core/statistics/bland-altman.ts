/** How far two ways of measuring differ on the same coupon. */
import { requireFraction } from "../input-error.ts";
import { normalQuantile } from "../numeric/normal-distribution.ts";
import { tQuantile } from "../numeric/t-distribution.ts";
import { mean, variance } from "./moments.ts";
import { differencesOf } from "./paired-t.ts";

/** The limits hold 95 % of differences, whatever the confidence of their own intervals. */
const widthInSd = normalQuantile(0.025, "upper");

/**
 * Limits of agreement between two measurements.
 *
 * Method   agreement.blandAltman
 * Formula  bias ± 1.959964 sd of the differences; standard error of a limit sd √(1/n + 1.959964² / (2 (n-1))), t with n - 1
 * Units    those of the values; difference = a less b
 * Source   Bland and Altman 1986, 1999
 * Status   computed
 * Holds    when the difference does not grow with the size: for rusted area use logarithms
 * Refuses  unequal lengths; fewer than two pairs; a confidence not between 0 and 1
 */
export function blandAltman({ a, b, confidence }: { a: number[]; b: number[]; confidence: number }) {
  const differences = differencesOf(a, b);
  requireFraction("confidence", confidence);
  const n = differences.length;
  const bias = mean(differences);
  const sd = Math.sqrt(variance(differences));
  const lowerLimit = bias - widthInSd * sd;
  const upperLimit = bias + widthInSd * sd;
  const t = tQuantile((1 - confidence) / 2, n - 1, "upper");
  const ofBias = (t * sd) / Math.sqrt(n);
  const ofLimit = t * sd * Math.sqrt(1 / n + widthInSd ** 2 / (2 * (n - 1)));
  return {
    bias,
    sd,
    lowerLimit,
    upperLimit,
    biasLower: bias - ofBias,
    biasUpper: bias + ofBias,
    lowerLimitLower: lowerLimit - ofLimit,
    lowerLimitUpper: lowerLimit + ofLimit,
    upperLimitLower: upperLimit - ofLimit,
    upperLimitUpper: upperLimit + ofLimit,
  };
}
