/** Several groups, several outcomes: Fisher's test carried on by Freeman and Halton. */
import { InputError } from "../input-error.ts";
import { logFactorial } from "../numeric/log-gamma.ts";
import { equallyLikely, requireCounts } from "./count-table.ts";
import { sum } from "./moments.ts";
import { columnsOf } from "./table-of-values.ts";

/** More partial tables than this would take minutes. */
const mostPartials = 2_000_000;

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
  const margin = columnsOf(slices).map(sum);
  const logs = Float64Array.from({ length: total + 1 }, (_, n) => logFactorial(n));
  const logOf = (counts: readonly number[]) => sum(counts.map((count) => logs[count]!));
  const front = logOf(sizes) + logOf(margin) - logs[total]!;
  const observed = equallyLikely - logOf(table.flat());
  let p = 0;
  let all = true;
  for (const { left, ways } of spread(margin, sizes.slice(0, -2), logs, table)) {
    const completions = completionsOf(left, sizes.at(-2)!, logs);
    for (const [log, count] of ways.values()) {
      const { share, complete } = completions.atMost(observed - log);
      all &&= complete;
      p += count * Math.exp(front + log) * share;
    }
  }
  return { p: all ? 1 : Math.min(1, p) };
}

/**
 * Tables filled up to some slice: what is left of the other margin, and, by their logarithm, how many of them there are
 * (ln of 1 / product of factorials so far, number of tables).
 */
type Partial = { left: number[]; ways: Map<number, [log: number, count: number]> };

/** Fills the slices one by one. What is left is sorted: the remaining slices do not know which row is which. */
function spread(margin: number[], sizes: readonly number[], logs: Float64Array, table: number[][]): Iterable<Partial> {
  let partials: Partial[] = [{ left: margin.toSorted(ascending), ways: new Map([[0, [0, 1]]]) }];
  for (const size of sizes) {
    const next = new Map<string, Partial>();
    let held = 0;
    for (const { left, ways } of partials)
      eachSlice(left, size, logs, (rest, sliceLog) => {
        const sorted = rest.toSorted(ascending);
        const key = sorted.join();
        const partial = next.get(key) ?? { left: sorted, ways: new Map() };
        next.set(key, partial);
        for (const [log, count] of ways.values()) held += addWays(partial.ways, log + sliceLog, count);
        if (held > mostPartials)
          throw new InputError("table", table, "a smaller table: this one is too large to enumerate");
      });
    partials = [...next.values()];
  }
  return partials;
}

const ascending = (a: number, b: number) => a - b;

/** Adds tables of one logarithm; 1 when it is a new one. Sums of the same factorials in another order differ in the last digits. */
function addWays(ways: Partial["ways"], log: number, count: number): 0 | 1 {
  const key = Math.round(log * 1e9);
  const alike = ways.get(key);
  if (alike) alike[1] += count;
  else ways.set(key, [log, count]);
  return alike ? 0 : 1;
}

/** Visits every way to take `size` out of what is left: the rest (a scratch array), and ln of 1 / product of factorials taken. */
function eachSlice(
  left: readonly number[],
  size: number,
  logs: Float64Array,
  visit: (rest: number[], log: number) => void,
): void {
  const rest = [...left];
  const room = left.map((_, at) => sum(left.slice(at + 1)));
  const take = (at: number, toTake: number, log: number): void => {
    if (at === left.length) {
      visit(rest, log);
      return;
    }
    for (let taken = Math.max(0, toTake - room[at]!); taken <= Math.min(left[at]!, toTake); taken++) {
      rest[at] = left[at]! - taken;
      take(at + 1, toTake - taken, log - logs[taken]!);
    }
  };
  take(0, size, 0);
}

/** The last two slices: their logarithms in ascending order with running sums, so that one search answers for each partial. */
function completionsOf(left: readonly number[], size: number, logs: Float64Array) {
  const found: number[] = [];
  eachSlice(left, size, logs, (rest, log) => found.push(rest.reduce((total, count) => total - logs[count]!, log)));
  const ordered = Float64Array.from(found).sort();
  let running = 0;
  const sums = ordered.map((log) => {
    running += Math.exp(log);
    return running;
  });
  return {
    atMost: (limit: number) => {
      let low = 0;
      let high = ordered.length;
      while (low < high) {
        const middle = (low + high) >> 1;
        if (ordered[middle]! <= limit) low = middle + 1;
        else high = middle;
      }
      return { share: low === 0 ? 0 : sums[low - 1]!, complete: low === ordered.length };
    },
  };
}
