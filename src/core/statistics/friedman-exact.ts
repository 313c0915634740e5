/** Treatments ranked within blocks, by all orders there could have been. */
import { chi2Sf } from "../numeric/chi2-distribution.ts";
import { doubledMidranks } from "./midranks.ts";
import { distinctOrders, orderCount } from "./permuted-rows.ts";
import { columnsOf, requireTable } from "./table-of-values.ts";

/** Above so many (rank sums so far) x (orders of a row) the exact p is left out (null). */
const largestWork = 2e6;

/**
 * Friedman's test with its exact p.
 *
 * Method   comparison.friedmanExact
 * Formula  chi2 = (k - 1) sum (R_j - b (k + 1) / 2)^2 / sum (r_ij - (k + 1) / 2)^2; exactP = share of all orders within the blocks with
 *          chi2 at least the observed one; asymptoticP from chi-square with k - 1 df
 * Units    any, the same within a block; the highest value has the highest rank; shares
 * Source   Friedman 1937; midranks, conditional on the ties
 * Status   computed
 * Holds    when treatments were allotted at random within each block; exactP null where the orders are too many to go through
 * Refuses  ragged rows, fewer than two blocks or two treatments, a value that is not finite
 */
export function friedmanExact({ rows }: { rows: number[][] }) {
  requireTable("rows", rows, { rows: 2, columns: 2 });
  const treatments = rows[0]!.length;
  // Doubled ranks less their mean: whole numbers that add up to 0 in each row.
  const ranks = rows.map((row) => doubledMidranks(row).map((rank) => rank - (treatments + 1)));
  const sums = columnsOf(ranks).map((column) => column.reduce((sum, rank) => sum + rank, 0));
  const squares = (numbers: readonly number[]) => numbers.reduce((sum, number) => sum + number * number, 0);
  const within = squares(ranks.flat());
  const chi2 = within === 0 ? null : ((treatments - 1) * squares(sums)) / within;
  return {
    rankSums: sums.map((sum) => (sum + rows.length * (treatments + 1)) / 2),
    chi2,
    asymptoticP: chi2 === null ? null : chi2Sf(chi2, treatments - 1),
    exactP: chi2 === null ? 1 : exactShare(ranks, squares(sums)),
  };
}

type State = { sums: readonly number[]; share: number };

/**
 * Row by row the possible rank sums, sorted: the statistic does not care which treatment has which sum, and each row runs over all
 * orders. For the same reason the first row needs only one order.
 */
function exactShare(ranks: readonly (readonly number[])[], observed: number): number | null {
  const radix = 2 * ranks.length * (ranks[0]!.length - 1) + 1;
  if (radix ** (ranks[0]!.length - 1) > Number.MAX_SAFE_INTEGER) return null;
  // One number for a list of rank sums; the last follows from the others.
  const keyOf = (sums: readonly number[]) => sums.slice(1).reduce((key, sum) => key * radix + sum + (radix - 1) / 2, 0);
  const first = [...ranks[0]!].sort((a, b) => a - b);
  let states = new Map<number, State>([[keyOf(first), { sums: first, share: 1 }]]);
  for (const row of ranks.slice(1)) {
    if (states.size * orderCount(row) > largestWork) return null;
    const orders = distinctOrders(row);
    const next = new Map<number, State>();
    for (const { sums, share } of states.values()) {
      for (const order of orders) {
        const added = sums.map((sum, at) => sum + order[at]!).sort((a, b) => a - b);
        const key = keyOf(added);
        const known = next.get(key);
        if (known) known.share += share / orders.length;
        else next.set(key, { sums: added, share: share / orders.length });
      }
    }
    states = next;
  }
  let share = 0;
  for (const state of states.values())
    if (state.sums.reduce((sum, number) => sum + number * number, 0) >= observed) share += state.share;
  return share;
}
