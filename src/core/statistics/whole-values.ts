/**
 * Measured values as whole numbers, so that their sums can be compared without rounding.
 *
 * Units    those of the values times a factor that is not handed on
 * Source   scaling rule of this project
 * Status   common practice
 */

/** `slack`: by how much two sums of them may differ and still be equal; 0 when the values have at most eight digits. */
export type WholeValues = { whole: number[]; slack: number };

const largestWhole = 1e8;
const finestParts = 1e11;
/** What rounding may have added to a decimal, as a share of the largest: nanometres in metres must not all round to 0. */
const rounding = 1e-12;

/** Decimals are multiplied up to whole numbers; values with too many digits (logarithms, say) are put on a very fine grid. */
export function wholeValues(values: readonly number[]): WholeValues {
  const largest = Math.max(...values.map(Math.abs));
  for (let factor = 1; factor * largest <= largestWhole && factor <= 1e9; factor *= 10) {
    const whole = values.map((value) => Math.round(value * factor));
    const slack = Math.min(1e-7, rounding * factor * largest);
    if (whole.every((one, at) => Math.abs(values[at]! * factor - one) <= slack)) return { whole, slack: 0 };
  }
  return { whole: values.map((value) => Math.round((value / largest) * finestParts)), slack: values.length };
}
