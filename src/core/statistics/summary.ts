/** One group of values: where it lies and how it scatters. */
import { requireFraction } from "../input-error.ts";
import { tQuantile } from "../numeric/t-distribution.ts";
import { mean, variance } from "./moments.ts";
import { requireValues } from "./value-list.ts";

/**
 * Mean, standard deviation, coefficient of variation and interval of the mean.
 *
 * Method   statistics.summary
 * Formula  sd with n - 1; halfWidth = t sd / √n; geometric mean and SD = exp of the mean and SD of the logarithms
 * Units    those of the values; cvPercent in % of the mean; geometricSd a factor
 * Source   elementary statistics
 * Status   computed
 * Holds    for values scattered about evenly; where values are log-like, read the geometric ones. cvPercent is null unless
 *          the mean is above 0, the geometric ones are null unless all values are
 * Refuses  fewer than two values; a value that is not finite; a confidence not between 0 and 1
 */
export function summary({ values, confidence }: { values: number[]; confidence: number }) {
  requireValues("values", values, 2);
  requireFraction("confidence", confidence);
  const middle = mean(values);
  const sd = Math.sqrt(variance(values));
  const t = tQuantile((1 - confidence) / 2, values.length - 1, "upper");
  const logs = values.every((value) => value > 0) ? values.map(Math.log) : null;
  return {
    mean: middle,
    sd,
    cvPercent: middle > 0 ? (100 * sd) / middle : null,
    halfWidth: (t * sd) / Math.sqrt(values.length),
    geometricMean: logs ? Math.exp(mean(logs)) : null,
    geometricSd: logs ? Math.exp(Math.sqrt(variance(logs))) : null,
  };
}
