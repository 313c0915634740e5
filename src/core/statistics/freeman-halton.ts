/** Several groups, several outcomes: Fisher's test carried on by Freeman and Halton. */
import { InputError } from "../input-error.ts";
import { logFactorial } from "../numeric/log-gamma.ts";
import { equallyLikely, requireCounts } from "./count-table.ts";
import { sum } from "./moments.ts";
import { columnsOf } from "./table-of-values.ts";

/** More partial tables than this would take minutes. */
const mostPartials = 4_000_000;

/**
 * Exact test of independence in a table of any size.
 *
 * Method   proportion.freemanHalton
 * Formula  p = sum of the probabilities of all tables with these margins not above the observed one (relative tolerance 1e-7)
 * Units    counts in; rows are groups, columns outcomes
 * Source   Freeman and Halton 1951
 * Status   computed
 * Holds    for coupons treated separately; grades have an order that this test does not use
 * Refuses  fewer than two rows or columns; ragged rows; an empty table; a table too large to enumerate
 */
export function freemanHalton({ table }: { table: number[][] }): { p: number } {
  requireCounts("table", table, { rows: 2, columns: 2 });
  const total = sum(table.flat());
  if (total === 0) throw new InputError("table", table, "a table with at least one coupon");
  // One slice (row or column) after the other; what a slice leaves is short when the slices are the longer side.
  const slices = table.length >= table[0]!.length ? table : columnsOf(table);
  const sizes = slices.map(sum);
  const front = sum([...sizes, ...columnsOf(slices).map(sum)].map(logFactorial)) - logFactorial(total);
  const observed = -sum(table.flat().map(logFactorial)) + equallyLikely;
  const partials = spread(columnsOf(slices).map(sum), sizes.slice(0, -2), table);
  const lastTwo = new Map<string, Completions>();
  let p = 0;
  let all = true;
  for (const { left, log, ways } of partials.values()) {
    const key = left.join();
    const completions = lastTwo.get(key) ?? completionsOf(left, sizes.at(-2)!);
    lastTwo.set(key, completions);
    const { share, complete } = completions.atMost(observed - log);
    all &&= complete;
    p += ways * Math.exp(front + log) * share;
  }
  return { p: all ? 1 : Math.min(1, p) };
}

/** Tables filled up to some slice: what is left of the other margin, ln of 1 / product of factorials so far, how many alike. */
type Partial = { left: number[]; log: number; ways: number };

/** Fills the slices one by one. What is left is sorted: the remaining slices do not know which row is which. */
function spread(margin: number[], sizes: readonly number[], table: number[][]): Map<string, Partial> {
  let partials = new Map<string, Partial>([["", { left: [...margin].sort((a, b) => a - b), log: 0, ways: 1 }]]);
  for (const size of sizes) {
    const next = new Map<string, Partial>();
    for (const { left, log, ways } of partials.values())
      for (const slice of slicesOf(left, size)) {
        const rest = left.map((amount, at) => amount - slice[at]!).sort((a, b) => a - b);
        const further = log - sum(slice.map(logFactorial));
        // Sums of the same factorials in another order differ in the last digits only.
        const key = `${rest.join()}|${further.toFixed(9)}`;
        const alike = next.get(key);
        if (alike) alike.ways += ways;
        else next.set(key, { left: rest, log: further, ways });
        if (next.size > mostPartials)
          throw new InputError("table", table, "a smaller table: this one is too large to enumerate");
      }
    partials = next;
  }
  return partials;
}

/** Every way to take `size` out of what is left. */
function* slicesOf(left: readonly number[], size: number, at = 0): Generator<number[]> {
  if (at === left.length - 1) {
    if (size <= left[at]!) yield [size];
    return;
  }
  const after = sum(left.slice(at + 1));
  for (let taken = Math.max(0, size - after); taken <= Math.min(left[at]!, size); taken++)
    for (const rest of slicesOf(left, size - taken, at + 1)) yield [taken, ...rest];
}

type Completions = { atMost: (log: number) => { share: number; complete: boolean } };

/** The last two slices: their logarithms in ascending order with running sums, so that one search answers for each partial. */
function completionsOf(left: readonly number[], size: number): Completions {
  const logs = [...slicesOf(left, size)]
    .map((slice) => -sum(slice.map((count, at) => logFactorial(count) + logFactorial(left[at]! - count))))
    .sort((a, b) => a - b);
  let running = 0;
  const sums = logs.map((log) => (running += Math.exp(log)));
  return {
    atMost: (limit) => {
      let low = 0;
      let high = logs.length;
      while (low < high) {
        const middle = (low + high) >> 1;
        if (logs[middle]! <= limit) low = middle + 1;
        else high = middle;
      }
      return { share: low === 0 ? 0 : sums[low - 1]!, complete: low === logs.length };
    },
  };
}
