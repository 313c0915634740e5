/**
 * Ranks in whole numbers, so that sums of ranks can be compared without rounding.
 *
 * Units    ranks, doubled
 * Source   definition of the midrank
 * Status   common practice
 */

/** Twice the midrank of each value, 2 for the lowest; equal values share the mean of their places. */
export function doubledMidranks(values: readonly number[]): number[] {
  const order = [...values.keys()].sort((a, b) => values[a]! - values[b]!);
  const ranks = values.map(() => 0);
  for (let from = 0; from < order.length; ) {
    let to = from;
    while (to < order.length && values[order[to]!] === values[order[from]!]) to++;
    // Places from + 1 to `to`: twice their mean.
    for (let at = from; at < to; at++) ranks[order[at]!] = from + 1 + to;
    from = to;
  }
  return ranks;
}

/** Sum over sets of equal values of t³ - t, the tie term of rank statistics; 0 without ties. */
export function tieTerm(values: readonly number[]): number {
  const sizes = new Map<number, number>();
  for (const value of values) sizes.set(value, (sizes.get(value) ?? 0) + 1);
  return [...sizes.values()].reduce((sum, t) => sum + (t ** 3 - t), 0);
}
