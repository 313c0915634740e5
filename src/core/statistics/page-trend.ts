/** Does more of it help more, within blocks? A trend over treatments in an order declared beforehand. */
import { normalSf } from "../numeric/normal-distribution.ts";
import { convolved, type ExactDistribution, tails } from "./exact-distribution.ts";
import { doubledMidranks } from "./midranks.ts";
import { requireTable } from "./table-of-values.ts";

/**
 * Page's exact test of a trend over ordered treatments in blocks.
 *
 * Method   comparison.pageTrend
 * Formula  l = sum over treatments of place j times rank sum R_j; exactPGreater = share of all orders within the blocks with l at
 *          least the observed one, exactP at least as far from the mean b k (k + 1)^2 / 4; asymptoticP two-sided
 * Units    any, the same within a block; the highest value has the highest rank; shares; greater: rising
 * Source   Page 1963; midranks, conditional on the ties
 * Status   computed
 * Holds    when the order was declared before the data were seen
 * Refuses  ragged rows, fewer than three treatments, a value that is not finite
 */
export function pageTrend({ rows }: { rows: number[][] }) {
  requireTable("rows", rows, { rows: 1, columns: 3 });
  const treatments = rows[0]!.length;
  const ranks = rows.map(doubledMidranks);
  const doubledL = ranks.flat().reduce((sum, rank, at) => sum + ((at % treatments) + 1) * rank, 0);
  const distribution = ranks.map(rowDistribution).reduce((all, row) => convolved(all, row, "rows"));
  const doubledMean = (rows.length * treatments * (treatments + 1) ** 2) / 2;
  const { midP: _, ...shares } = tails(distribution, doubledL, { total: doubledMean, parts: 1 });
  const places = (treatments * (treatments ** 2 - 1)) / 12;
  const scatter = ranks.flat().reduce((sum, rank) => sum + (rank - treatments - 1) ** 2, 0);
  const deviation = Math.sqrt((places * scatter) / (treatments - 1));
  return {
    l: doubledL / 2,
    ...shares,
    asymptoticP: scatter === 0 ? null : 2 * normalSf(Math.abs(doubledL - doubledMean) / deviation),
  };
}

/** Sum of place times rank over all orders of one row; key of a state: which of the ranks are used already. */
function rowDistribution(ranks: readonly number[]): ExactDistribution {
  let states = new Map<number, Map<number, number>>([[0, new Map([[0, 1]])]]);
  for (let place = 1; place <= ranks.length; place++) {
    const next = new Map<number, Map<number, number>>();
    for (const [used, sums] of states) {
      for (const [at, rank] of ranks.entries()) {
        if (used & (1 << at)) continue;
        const key = used | (1 << at);
        const into = next.get(key) ?? new Map<number, number>();
        next.set(key, into);
        for (const [sum, count] of sums) into.set(sum + place * rank, (into.get(sum + place * rank) ?? 0) + count);
      }
    }
    states = next;
  }
  return [...states.values()][0]!;
}
