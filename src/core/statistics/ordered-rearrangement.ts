/**
 * Does more of it help more? The Jonckheere-Terpstra statistic within blocks, with its labels rearranged as the lot dealt them.
 *
 * Units   scores without unit; groups numbered in the declared order; p as a share of the rearrangements, both sides
 * Source  Jonckheere 1954; Terpstra 1952; labels rearranged as they were randomised: Fisher 1935
 * Status  computed
 */
import { convolved, type ExactDistribution, tails } from "./exact-distribution.ts";
import { jonckheereDistribution } from "./jonckheere.ts";
import { type Acceptance, type PlacedScore, placedRearrangements } from "./placed-rearrangements.ts";

export type OrderedP = {
  p: number;
  /** Smallest p that layout and ties allow. */
  pMin: number;
  rearrangements: number;
  /** How many were drawn; null: all were counted. */
  drawn: number | null;
};

/** Two-sided: as far from the mean as observed. Group 0 stands first in the order; none is empty. */
export function orderedRearrangementTest(
  units: readonly PlacedScore[],
  { accepts, ...ask }: { accepts?: Acceptance | undefined; seed: number; draws?: number },
): OrderedP {
  const plain = accepts === undefined && units.every((unit) => unit.plot === "");
  const counted = plain ? countedByBlock(units) : null;
  return counted ?? visited(units, accepts, ask);
}

/** Without batches or a refused draw each block has its own exact distribution; null: too many groups and units to go through. */
function countedByBlock(units: readonly PlacedScore[]): OrderedP | null {
  const groups = Math.max(...units.map((unit) => unit.group)) + 1;
  let all: ExactDistribution = new Map([[0, 1]]);
  let [observed, total] = [0, 0];
  for (const block of new Set(units.map((unit) => unit.block))) {
    const own = units.filter((unit) => unit.block === block);
    const scores = Array.from({ length: groups }, (_, group) =>
      own.filter((unit) => unit.group === group).map((unit) => rounded(unit.score)),
    ).filter((group) => group.length > 0);
    const one = jonckheereDistribution(scores);
    if (one === null) return null;
    all = convolved(all, one.distribution);
    observed += one.doubledJ;
    total += one.pairs;
  }
  const farthest = Math.max(...[...all.keys()].map((value) => Math.abs(value - total)));
  const rearrangements = [...all.values()].reduce((sum, count) => sum + count, 0);
  const asFar = [...all].filter(([value]) => Math.abs(value - total) === farthest);
  return {
    p: tails(all, observed, { total, parts: 1 }).exactP,
    pMin: asFar.reduce((sum, [, count]) => sum + count, 0) / rearrangements,
    rearrangements,
    drawn: null,
  };
}

/** Scores that differ only by rounding are tied. */
const rounded = (score: number): number => Math.round(score * 1e9) / 1e9;

function visited(
  units: readonly PlacedScore[],
  accepts: Acceptance | undefined,
  ask: { seed: number; draws?: number },
): OrderedP {
  const set = placedRearrangements(units, accepts);
  const statistic = doubledJ(units);
  const found: number[] = [];
  const how = set.visit(ask, ({ labels }) => found.push(statistic(labels)));
  const mean = found.reduce((sum, one) => sum + one, 0) / found.length;
  const distances = found.map((one) => Math.abs(one - mean));
  const observed = Math.abs(statistic(set.observed.labels) - mean);
  const farthest = distances.reduce((most, one) => Math.max(most, one), 0);
  const share = (distance: number) => {
    const count = distances.filter((one) => one >= distance - 1e-9).length;
    return how === "all" ? count / found.length : (1 + count) / (1 + found.length);
  };
  return {
    p: share(observed),
    pMin: share(farthest),
    rearrangements: how === "all" ? found.length : set.count,
    drawn: how === "all" ? null : found.length,
  };
}

/** Over all pairs of a block: 2 where the later group is higher, 1 for a tie. */
function doubledJ(units: readonly PlacedScore[]): (labels: Uint8Array) => number {
  const pairs = units.flatMap((one, a) =>
    units.slice(a + 1).flatMap((other, offset) => {
      if (one.block !== other.block) return [];
      return [{ a, b: a + 1 + offset, gain: 1 + Math.sign(rounded(other.score) - rounded(one.score)) }];
    }),
  );
  return (labels) => {
    let sum = 0;
    for (const { a, b, gain } of pairs) {
      if (labels[a]! < labels[b]!) sum += gain;
      else if (labels[a]! > labels[b]!) sum += 2 - gain;
    }
    return sum;
  };
}
