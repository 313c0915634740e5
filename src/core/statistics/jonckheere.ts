/** Does more of it help more? A trend over treatments in an order declared beforehand. */
import { InputError } from "../input-error.ts";
import { combinations } from "../numeric/combinations.ts";
import { normalSf } from "../numeric/normal-distribution.ts";
import { type ExactDistribution, tails } from "./exact-distribution.ts";
import { requireGroups } from "./table-of-values.ts";

/** Largest number of (groups filled so far) x (distinct statistics) that is gone through. */
const largestWork = 2e7;

/**
 * Exact Jonckheere-Terpstra test of a trend over ordered groups.
 *
 * Method   comparison.jonckheere
 * Formula  j = over all pairs of groups in the given order, pairs with later > earlier + half of the tied pairs; exactP = share of
 *          all allocations at least as far from the mean; varianceJ with the full tie correction
 * Units    any; j a count of pairs; shares; greater: rising
 * Source   Jonckheere 1954; Terpstra 1952; Hollander and Wolfe for the variance
 * Status   computed
 * Holds    when the order was declared before the data were seen
 * Refuses  fewer than two groups, an empty group, a value that is not finite, more groups and coupons than can be gone through
 */
export function jonckheere({ groups }: { groups: number[][] }) {
  requireGroups("groups", groups, 1);
  const sizes = groups.map((group) => group.length);
  const counted = jonckheereDistribution(groups);
  if (counted === null) throw new InputError("groups", sizes, "fewer or smaller groups");
  const { doubledJ, pairs } = counted;
  const { midP: _, ...shares } = tails(counted.distribution, doubledJ, { total: pairs, parts: 1 });
  const tied = tiedCounts(groups.flat());
  const varianceJ = variance(
    sizes,
    tied,
    sizes.reduce((sum, size) => sum + size, 0),
  );
  const deviation = (doubledJ - pairs) / 2;
  return {
    j: doubledJ / 2,
    expectedJ: pairs / 2,
    varianceJ,
    ...shares,
    asymptoticP: tied.length === 1 ? null : 2 * normalSf(Math.abs(deviation) / Math.sqrt(varianceJ)),
  };
}

/** Twice the statistic, its distribution over all allocations and the number of pairs, its mean; null: too many to go through. */
export function jonckheereDistribution(groups: readonly (readonly number[])[]) {
  const sizes = groups.map((group) => group.length);
  const n = sizes.reduce((sum, size) => sum + size, 0);
  const pairs = (n ** 2 - sizes.reduce((sum, size) => sum + size ** 2, 0)) / 2;
  const states = sizes.reduce((product, size) => product * (size + 1), 1);
  if (states * pairs > largestWork) return null;
  return { distribution: distribution(sizes, tiedCounts(groups.flat())), doubledJ: statistic(groups), pairs };
}

/** How many coupons share each distinct value, upwards. */
function tiedCounts(values: readonly number[]): number[] {
  const counts = new Map<number, number>();
  for (const value of values) counts.set(value, (counts.get(value) ?? 0) + 1);
  return [...counts].sort((a, b) => a[0] - b[0]).map(([, count]) => count);
}

function statistic(groups: readonly (readonly number[])[]): number {
  let doubled = 0;
  for (const [at, later] of groups.entries())
    for (const earlier of groups.slice(0, at))
      for (const a of earlier) for (const b of later) doubled += 1 + Math.sign(b - a);
  return doubled;
}

/**
 * Distribution of the doubled statistic: the distinct values are dealt out upwards. Putting a coupon into a group adds 2 for each
 * smaller one in the groups before it and 1 for each equal one there.
 */
function distribution(sizes: readonly number[], tied: readonly number[]): ExactDistribution {
  // Key: how many coupons each group holds, as the digits of one number.
  const place = sizes.map((_, at) => sizes.slice(0, at).reduce((product, size) => product * (size + 1), 1));
  let states = new Map<number, Map<number, number>>([[0, new Map([[0, 1]])]]);
  for (const count of tied) {
    const next = new Map<number, Map<number, number>>();
    for (const [key, sums] of states) {
      const held = sizes.map((size, at) => Math.floor(key / place[at]!) % (size + 1));
      dealTied(held, sizes, count, (given, gain, ways) => {
        const newKey = given.reduce((sum, number, at) => sum + number * place[at]!, key);
        const into = next.get(newKey) ?? new Map<number, number>();
        next.set(newKey, into);
        for (const [sum, number] of sums) into.set(sum + gain, (into.get(sum + gain) ?? 0) + number * ways);
      });
    }
    states = next;
  }
  return [...states.values()][0]!;
}

/** All ways to put `count` tied coupons into the groups' free places, with the gain of the doubled statistic. */
function dealTied(
  held: readonly number[],
  sizes: readonly number[],
  count: number,
  use: (given: readonly number[], gain: number, ways: number) => void,
): void {
  const given = sizes.map(() => 0);
  const deal = (group: number, left: number, gain: number, ways: number, below: number): void => {
    if (group === sizes.length) {
      if (left === 0) use(given, gain, ways);
      return;
    }
    for (let number = 0; number <= Math.min(left, sizes[group]! - held[group]!); number++) {
      given[group] = number;
      // below: 2 for each smaller and 1 for each equal coupon in the groups before this one.
      const more = Number(combinations(left, number));
      deal(group + 1, left - number, gain + number * below, ways * more, below + 2 * held[group]! + number);
    }
    given[group] = 0;
  };
  deal(0, count, 0, 1, 0);
}

function variance(sizes: readonly number[], tied: readonly number[], n: number): number {
  const over = (numbers: readonly number[], term: (x: number) => number) =>
    numbers.reduce((sum, x) => sum + term(x), 0);
  const cubic = (x: number) => x * (x - 1) * (2 * x + 5);
  const triples = (x: number) => x * (x - 1) * (x - 2);
  const doubles = (x: number) => x * (x - 1);
  const main = (cubic(n) - over(sizes, cubic) - over(tied, cubic)) / 72;
  const byTriples = n < 3 ? 0 : (over(sizes, triples) * over(tied, triples)) / (36 * triples(n));
  return main + byTriples + (over(sizes, doubles) * over(tied, doubles)) / (8 * doubles(n));
}
