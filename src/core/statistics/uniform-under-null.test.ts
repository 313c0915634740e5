/**
 * Without any difference a p of at most a level comes as often as the level says. For the exact tests this is counted, not drawn: over all
 * allocations that the lot could have made, as many have a p at or below any p as that p says.
 */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { normalQuantile } from "../numeric/normal-distribution.ts";
import { seededRandom } from "../numeric/random.ts";
import { anovaOneWay } from "./anova-one-way.ts";
import { dunnettStepDown } from "./dunnett-step-down.ts";
import { fisherExact } from "./fisher-exact.ts";
import { kruskalWallis } from "./kruskal-wallis.ts";
import { logRankPermutation } from "./log-rank-permutation.ts";
import { rearrangementTest } from "./rearrangement-test.ts";
import { shiftedRankSum } from "./shift-by-ranks.ts";
import { welchT } from "./welch-t.ts";
import { wilcoxonExact } from "./wilcoxon-exact.ts";

/** Every way to hand labels out within blocks: group numbers in the order of the units. */
function labellings(blocks: readonly string[], groups: readonly number[]): number[][] {
  const rooms = new Map(blocks.map((block) => [block, groups.filter((_, at) => blocks[at] === block)]));
  const deal = (at: number, left: ReadonlyMap<string, readonly number[]>): number[][] => {
    const block = blocks[at];
    if (block === undefined) return [[]];
    const room = left.get(block)!;
    return [...new Set(room)].flatMap((group) => {
      const rest = room.toSpliced(room.indexOf(group), 1);
      return deal(at + 1, new Map([...left, [block, rest]])).map((labels) => [group, ...labels]);
    });
  };
  return deal(0, rooms);
}

/** As many allocations have a p of at most p as p says, for each p that comes. */
function expectExact(pValues: readonly number[]): void {
  const sorted = [...pValues].sort((a, b) => a - b);
  for (const p of new Set(sorted)) {
    const atMost = sorted.filter((one) => one <= p + 1e-9).length / sorted.length;
    expect(atMost).toBeCloseTo(p, 9);
  }
}

const looks = [
  [0, 7],
  [7, 14],
  [7, 21],
  [14, 21],
  [14, 21],
  [21, null],
  [21, null],
] as const;

describe("exact tests over all allocations", () => {
  const groups = [0, 0, 0, 1, 1, 2, 2];
  const scores = fc.array(fc.integer({ min: 0, max: 5 }), { minLength: 7, maxLength: 7 });
  const blocks = ["a", "a", "a", "a", "b", "b", "b"];
  const blockedGroups = [0, 1, 2, 0, 0, 1, 2];

  test("rearrangements of three groups, ties, against the control and all pairs, free and in blocks", () => {
    fc.assert(
      fc.property(
        scores,
        fc.constantFrom("control" as const, "pairs" as const),
        fc.boolean(),
        (some, statistic, inBlocks) => {
          const own = inBlocks ? blocks : blocks.map(() => "");
          expectExact(
            labellings(own, inBlocks ? blockedGroups : groups).map((labels) => {
              const units = some.map((score, at) => ({ score, group: labels[at]!, block: own[at]! }));
              return rearrangementTest(units, { statistic, seed: 1 }).p;
            }),
          );
        },
      ),
      { numRuns: 8 },
    );
  });

  test("log-rank of looks, three groups", () =>
    expectExact(
      labellings(
        blocks.map(() => ""),
        groups,
      ).map((labels) => {
        const split = [0, 1, 2].map((group) =>
          looks.flatMap(([leftDays, rightDays], at) => (labels[at] === group ? [{ leftDays, rightDays }] : [])),
        );
        return logRankPermutation({ groups: split, stratified: false }).exactP!;
      }),
    ));

  test("rank sums, rank sums in blocks, Kruskal and Wallis, Fisher: ties and unequal groups", () => {
    fc.assert(
      fc.property(scores, (some) => {
        const two = labellings(
          blocks.map(() => ""),
          [0, 0, 0, 1, 1, 1, 1],
        );
        const of = (labels: number[], group: number) => some.filter((_, at) => labels[at] === group);
        expectExact(two.map((labels) => wilcoxonExact({ first: of(labels, 0), second: of(labels, 1) }).exactP));
        expectExact(
          two.map((labels) => {
            const [a, c] = [0, 1].map((group) => of(labels, group).filter((value) => value > 2).length);
            const table: [[number, number], [number, number]] = [
              [a!, 3 - a!],
              [c!, 4 - c!],
            ];
            return fisherExact({ table, confidence: 0.95 }).p;
          }),
        );
        expectExact(
          labellings(blocks, [0, 0, 1, 1, 0, 1, 1]).map((labels) => {
            const side = (group: number) =>
              some.flatMap((value, at) => (labels[at] === group ? [{ value, block: blocks[at]! }] : []));
            return shiftedRankSum(side(0), side(1), 0).twoSided;
          }),
        );
        const three = labellings(
          blocks.map(() => ""),
          groups,
        );
        if (new Set(some).size > 1)
          expectExact(
            three.map((labels) => kruskalWallis({ groups: [0, 1, 2].map((group) => of(labels, group)) }).exactP!),
          );
      }),
      { numRuns: 8 },
    );
  });
});

describe("simulated without a difference (seed 5)", () => {
  const random = seededRandom(5);
  const normal = () => normalQuantile((random.next() * 2 ** 53 + 0.5) / 2 ** 53);
  const sample = (n: number) => Array.from({ length: n }, normal);
  /** The largest distance from the straight line stays below what one seed in a thousand passes. */
  function expectUniform(pOf: (trial: number) => number, trials = 400): void {
    const sorted = Array.from({ length: trials }, (_, trial) => pOf(trial)).sort((a, b) => a - b);
    const distance = Math.max(...sorted.map((p, at) => Math.max(p - at / trials, (at + 1) / trials - p)));
    expect(distance).toBeLessThan(1.95 / Math.sqrt(trials));
  }

  test("drawn rearrangements of four groups of five: the p of 199 draws", () =>
    expectUniform((trial) => {
      const units = sample(20).map((score, at) => ({ score, group: at % 4, block: "" }));
      return rearrangementTest(units, { statistic: "control", seed: trial + 1, draws: 199 }).p;
    }));

  test("analysis of variance, four groups of unequal size", () =>
    expectUniform(() => anovaOneWay({ groups: [3, 5, 4, 8].map(sample) }).p));

  test("Welch, eight against eight with three times the scatter", () =>
    expectUniform(() => welchT({ a: sample(8), b: sample(8).map((value) => 3 * value) }).p));

  test("Dunnett step-down: the smallest adjusted p of three", () =>
    expectUniform(() => {
      const { adjustedP } = dunnettStepDown({ control: sample(5), treatments: [sample(5), sample(5), sample(5)] });
      return Math.min(...adjustedP);
    }, 100));
});
