/**
 * Means and scatter of measured values, with the digits that shared leading digits would eat.
 *
 * Units    those of the values; squares of them for sums of squares and variances
 * Source   definitions; the mean corrected by a second pass, a textbook device; what counts as scatter is this project's rule
 * Status   common practice
 */
import { InputError } from "../input-error.ts";

/** Arithmetic mean; the second pass takes back what the first one rounded away. */
export function mean(values: readonly number[]): number {
  const rough = sum(values) / values.length;
  return rough + values.reduce((total, value) => total + (value - rough), 0) / values.length;
}

/** Sum of squared distances from the mean. */
export function sumOfSquares(values: readonly number[]): number {
  const middle = mean(values);
  return values.reduce((total, value) => total + (value - middle) ** 2, 0);
}

/** Sum of squares over n - 1, for two values or more. */
export function variance(values: readonly number[]): number {
  return sumOfSquares(values) / (values.length - 1);
}

/** Sum in the order given. */
export function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}

/** The values less the first of all: differences of numbers that share digits are exact, and nothing tested here changes. */
export function centred(groups: readonly (readonly number[])[]): number[][] {
  const origin = groups[0]?.[0] ?? 0;
  return groups.map((group) => group.map((value) => value - origin));
}

/**
 * Refuses scatter that is nothing but the rounding of the numbers themselves: a test that divides by it would answer with
 * infinity, or with the last digit of a decimal fraction. `values` are as measured, not centred.
 */
export function requireScatter(argument: string, squares: number, values: readonly number[], expected: string): void {
  const largest = values.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  if (squares <= values.length * (4 * Number.EPSILON * largest) ** 2) throw new InputError(argument, values, expected);
}
