/** Two groups, two outcomes, margins not fixed: Boschloo's test. */
import { requireOneOf } from "../input-error.ts";
import { binomialPmf } from "../numeric/binomial-distribution.ts";
import { brentMinimum } from "../numeric/brent.ts";
import { hypergeometricLogPmf, hypergeometricRange } from "../numeric/hypergeometric-distribution.ts";
import { equallyLikely } from "./count-table.ts";
import { type FourCounts, requireFourCounts } from "./four-counts.ts";

const alternatives = ["twoSided", "less", "greater"] as const;
export type Alternative = (typeof alternatives)[number];

/**
 * Boschloo's exact unconditional test of two proportions: never weaker than Fisher's.
 *
 * Method   proportion.boschloo
 * Formula  statistic = Fisher p of the same alternative; p = largest probability, over the common proportion from 0 to 1, of a
 *          statistic not above the observed one
 * Units    counts in; p as a fraction
 * Source   Boschloo 1970
 * Status   computed
 * Holds    for coupons treated separately, with group sizes fixed beforehand
 * Refuses  counts that are not whole; more successes than trials; a group without trials; another alternative
 */
export function boschloo({ alternative, ...counts }: FourCounts & { alternative: Alternative }): {
  statistic: number;
  p: number;
} {
  requireFourCounts(counts);
  requireOneOf("alternative", alternative, alternatives);
  const population = counts.trials1 + counts.trials2;
  const totals = Array.from({ length: population + 1 }, (_, successes) =>
    fisherByCount({ population, successes, draws: counts.trials1 }, alternative),
  );
  const own = totals[counts.successes1 + counts.successes2]!;
  const statistic = own.fisher[counts.successes1 - own.least]!;
  // Given its total, each table keeps its hypergeometric chance: only the total depends on the common proportion.
  const reached = totals.map(({ fisher, chances }) =>
    chances.reduce((sum, chance, at) => (fisher[at]! <= statistic * (1 + equallyLikely) ? sum + chance : sum), 0),
  );
  return { statistic, p: Math.min(1, largestChance(reached)) };
}

function fisherByCount(draw: { population: number; successes: number; draws: number }, alternative: Alternative) {
  const { least, most } = hypergeometricRange(draw);
  const chances = Array.from({ length: most - least + 1 }, (_, at) => Math.exp(hypergeometricLogPmf(least + at, draw)));
  const fisher = chances.map((chance, at) => {
    const counted = chances.filter((other, place) => {
      if (alternative === "less") return place <= at;
      return alternative === "greater" ? place >= at : other <= chance * (1 + equallyLikely);
    });
    return counted.length === chances.length
      ? 1
      : Math.min(
          1,
          counted.reduce((sum, other) => sum + other, 0),
        );
  });
  return { least, chances, fisher };
}

/** The largest value, over the proportion, of the mean of `reached` under the binomial total. Peaks are found on a grid. */
function largestChance(reached: readonly number[]): number {
  const n = reached.length - 1;
  const chanceAt = (prob: number) =>
    reached.reduce((sum, share, total) => (share === 0 ? sum : sum + share * binomialPmf(total, { n, prob })), 0);
  const steps = 8 * n + 64;
  const grid = Array.from({ length: steps + 1 }, (_, at) => chanceAt(at / steps));
  const peaks = grid
    .map((value, at) => ({ value, at }))
    .filter(({ value, at }) => value >= (grid[at - 1] ?? 0) && value >= (grid[at + 1] ?? 0))
    .sort((a, b) => b.value - a.value)
    .slice(0, 4);
  return peaks.reduce((largest, { value, at }) => {
    const refined = brentMinimum(
      (prob) => -chanceAt(prob),
      Math.max(0, at - 1) / steps,
      Math.min(steps, at + 1) / steps,
    );
    return Math.max(largest, value, -refined.value);
  }, 0);
}
