/**
 * The value that would stand at a place if all were sorted, without sorting them: parts that cannot hold the place are left as they are.
 *
 * Units    those of the values
 * Source   selection by partition (Hoare)
 * Status   computed
 */
import { InputError, requireWhole } from "../input-error.ts";

/** The value at place `nth`, from 0, of the values in rising order. Puts `values` in some other order. Refuses a place that is not among them. */
export function nthOf(values: Float32Array, nth: number): number {
  requireWhole("nth", nth);
  if (nth >= values.length) throw new InputError("nth", nth, `a place below ${values.length}`);
  let left = 0;
  let right = values.length - 1;
  while (left < right) {
    const pivot = values[nth]!;
    let low = left;
    let high = right;
    while (low <= high) {
      while (values[low]! < pivot) low++;
      while (pivot < values[high]!) high--;
      if (low > high) break;
      const one = values[low]!;
      values[low] = values[high]!;
      values[high] = one;
      low++;
      high--;
    }
    if (high < nth) left = low;
    if (nth < low) right = high;
  }
  return values[nth]!;
}
