/**
 * Numbers of ways to choose and to allocate.
 *
 * Units    counts
 * Source   definition of the binomial and multinomial coefficient
 * Status   common practice
 */
import { InputError, requireWhole } from "../input-error.ts";

/** n over k, exact. */
export function combinations(n: number, k: number): bigint {
  requireWhole("n", n);
  requireWhole("k", k);
  if (k > n) throw new InputError("k", k, `at most ${n}`);
  let ways = 1n;
  for (let taken = 1n; taken <= BigInt(Math.min(k, n - k)); taken++) ways = (ways * (BigInt(n) - taken + 1n)) / taken;
  return ways;
}

/** In how many ways the sum of the sizes can be dealt into groups of these sizes, exact. */
export function allocations(sizes: readonly number[]): bigint {
  let ways = 1n;
  let dealt = 0;
  for (const size of sizes) {
    dealt += size;
    ways *= combinations(dealt, size);
  }
  return ways;
}
