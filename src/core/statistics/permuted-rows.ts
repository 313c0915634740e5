/**
 * All orders of the ranks within a block.
 *
 * Units    ranks
 * Source   definition of the reference set within blocks
 * Status   common practice
 */

/** The different orders of a row; all come up equally often, tied or not. */
export function distinctOrders(row: readonly number[]): number[][] {
  if (row.length === 0) return [[]];
  return [...new Set(row)].flatMap((first) => {
    const at = row.indexOf(first);
    const rest = [...row.slice(0, at), ...row.slice(at + 1)];
    return distinctOrders(rest).map((order) => [first, ...order]);
  });
}

/** How many different orders a row has. */
export function orderCount(row: readonly number[]): number {
  let count = 1;
  const seen = new Map<number, number>();
  for (const [at, value] of row.entries()) {
    const times = (seen.get(value) ?? 0) + 1;
    seen.set(value, times);
    count = (count * (at + 1)) / times;
  }
  return count;
}
