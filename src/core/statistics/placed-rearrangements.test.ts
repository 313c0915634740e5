import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { seededRandom } from "../numeric/random.ts";
import {
  type Acceptance,
  type PlacedScore,
  placedRearrangements,
  placedRearrangementTest,
  smallestPlacedP,
} from "./placed-rearrangements.ts";
import { rearrangementTest, smallestRearrangementP } from "./rearrangement-test.ts";

/** One unit a letter: its group; a plot is a word, a block a list of words. */
const layout = (blocks: string[], scores: number[]): PlacedScore[] => {
  let next = 0;
  return blocks.flatMap((words, block) =>
    words.split(" ").flatMap((word, plot) =>
      [...word].map((letter) => ({
        group: letter.charCodeAt(0) - "a".charCodeAt(0),
        score: scores[next++]!,
        block: String(block),
        plot: word.length > 1 ? `${block}.${plot}` : "",
      })),
    ),
  );
};
const permutations = <T>(items: readonly T[]): T[][] =>
  items.length < 2
    ? [[...items]]
    : items.flatMap((item, at) =>
        permutations([...items.slice(0, at), ...items.slice(at + 1)]).map((rest) => [item, ...rest]),
      );
const product = <T>(lists: readonly T[][]): T[][] =>
  lists.reduce<T[][]>((all, list) => all.flatMap((head) => list.map((one) => [...head, one])), [[]]);

/** By brute force, as the lot is drawn: plots shuffled in each block, units in each plot; every draw as likely, repeats and all. */
function bruteForce(
  units: readonly PlacedScore[],
  largest: (labels: number[]) => number,
  accepts: (labels: number[]) => boolean,
) {
  const blocks = [...new Set(units.map((unit) => unit.block))].map((block) => {
    const own = [...units.keys()].filter((at) => units[at]!.block === block);
    const names = [...new Set(own.map((at) => units[at]!.plot || `alone ${at}`))];
    return names.map((name) => own.filter((at) => (units[at]!.plot || `alone ${at}`) === name));
  });
  const ofBlock = (plots: number[][]): Map<number, number>[] =>
    permutations(plots).flatMap((order) =>
      product(order.map((plot) => permutations(plot))).map(
        (sources) =>
          new Map(
            plots.flatMap((plot, at) => plot.map((into, slot) => [into, units[sources[at]![slot]!]!.group] as const)),
          ),
      ),
    );
  const observed = largest(units.map((unit) => unit.group));
  let [count, all] = [0, 0];
  for (const parts of product(blocks.map(ofBlock))) {
    const labels = units.map((_, at) => parts.find((part) => part.has(at))!.get(at)!);
    if (!accepts(labels)) continue;
    all++;
    if (largest(labels) >= observed - 1e-9) count++;
  }
  return count / all;
}

/** Largest standardised difference of means over all pairs, scores less the mean of their block. */
const largestOfPairs = (units: readonly PlacedScore[]) => (labels: number[]) => {
  const less = units.map(({ block, score }) => {
    const own = units.filter((unit) => unit.block === block).map((unit) => unit.score);
    return score - own.reduce((sum, one) => sum + one, 0) / own.length;
  });
  const groups = Math.max(...labels) + 1;
  const of = (group: number) => less.filter((_, at) => labels[at] === group);
  let most = 0;
  for (let b = 1; b < groups; b++)
    for (let a = 0; a < b; a++) {
      const [one, other] = [of(a), of(b)];
      const mean = (list: number[]) => list.reduce((sum, x) => sum + x, 0) / list.length;
      most = Math.max(most, Math.abs(mean(one) - mean(other)) / Math.sqrt(1 / one.length + 1 / other.length));
    }
  return most;
};
const ask = { statistic: "pairs", seed: 1 } as const;

const splitPlots: [string, string[]][] = [
  ["two baths, two batches each, oil and wax in each", ["ab ab cd cd"]],
  ["the same in two blocks of one batch each", ["ab cd", "cd ab"]],
  ["three batches against two", ["ab cd ab cd ab"]],
  ["one bath alone: within its batches", ["ab ab ab"]],
  ["two coupons of each in a batch", ["aabb ccdd"]],
  ["three baths with a finish each, and one that all have", ["ad bd cd"]],
  ["batches of one coupon are free", ["a a b b b"]],
];

describe("split plots", () => {
  test.each(splitPlots)("exact p is that of every draw by hand: %s", (_, blocks) => {
    for (let seed = 1; seed <= 6; seed++) {
      const { below } = seededRandom(seed);
      const units = layout(
        blocks,
        Array.from({ length: 20 }, () => below(seed % 2 === 0 ? 4 : 40)),
      );
      const { p, drawn } = placedRearrangementTest(units, ask);
      expect(drawn).toBeNull();
      expect(p).toBeCloseTo(
        bruteForce(units, largestOfPairs(units), () => true),
        10,
      );
    }
  });

  test("two batches of each bath, oil and wax in each: 6 ways for the baths, 2 in each of four batches", () => {
    expect(placedRearrangements(layout(["ab ab cd cd"], [1, 2, 3, 4, 5, 6, 7, 8])).count).toBe(6 * 2 ** 4);
  });

  test("batches that hold unequally many: their means are exchanged, what is inside them stays there", () => {
    // Means 1 and 3 of two batches of a and b, 6 and 8 of two batches of c; inside, b lies 2 above a.
    const units = layout(["ab ab c c"], [0, 2, 2, 4, 6, 8]).map((unit, at) => ({
      ...unit,
      plot: ["p", "p", "q", "q", "r", "s"][at]!,
    }));
    const set = placedRearrangements(units);
    expect(set.count).toBe(6 * 2 ** 2);
    // Farthest as observed: c holds both high means, b is high in both batches. Turned round, it is as far: c low and a or b high.
    const differences: number[] = [];
    set.visit({ seed: 1 }, ({ sums }) => differences.push(Math.abs(sums[2]! / 2 - sums[0]! / 2)));
    const observed = Math.abs(7 - 1);
    expect(differences.filter((one) => one >= observed - 1e-9)).toHaveLength(2);
  });

  test("without batches it is the usual test, in blocks or not", () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 0, max: 5 }), { minLength: 8, maxLength: 8 }),
        fc.boolean(),
        (scores, blocked) => {
          const units = layout(blocked ? ["a b a", "b a b a b"] : ["a b a b a c c b"], scores);
          expect(placedRearrangementTest(units, ask).p).toBeCloseTo(rearrangementTest(units, ask).p, 10);
          if (blocked) expect(smallestPlacedP(units, ask)).toBeCloseTo(smallestRearrangementP(units), 10);
        },
      ),
      { numRuns: 60 },
    );
  });

  test("numbering the coupons, batches and treatments anew changes nothing", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 10_000 }), (seed) => {
        const { below, shuffle } = seededRandom(seed);
        const units = layout(
          ["ab cd ab cd"],
          Array.from({ length: 8 }, () => below(6)),
        );
        const names = shuffle([0, 1, 2, 3]);
        const anew = shuffle(units).map((unit) => ({ ...unit, group: names[unit.group]!, plot: `x${unit.plot}` }));
        expect(placedRearrangementTest(anew, ask).p).toBeCloseTo(placedRearrangementTest(units, ask).p, 10);
      }),
      { numRuns: 40 },
    );
  });

  test("without a difference p is at or below a level as often as the level says, and never more", () => {
    const { next } = seededRandom(5);
    const p = Array.from({ length: 600 }, () => {
      const units = layout(
        ["ab ab ab cd cd cd"],
        Array.from({ length: 12 }, () => 0),
      );
      const batches = new Map(units.map((unit) => [unit.plot, 2 * next()]));
      return placedRearrangementTest(
        units.map((unit) => ({ ...unit, score: next() + batches.get(unit.plot)! })),
        ask,
      ).p;
    });
    // 20 x 2^6 ways: the p is fine enough for these levels. Three standard errors of 600 trials.
    for (const level of [0.05, 0.2, 0.5]) {
      const share = p.filter((one) => one <= level + 1e-9).length / p.length;
      expect(Math.abs(share - level)).toBeLessThan(3 * Math.sqrt((level * (1 - level)) / p.length));
    }
  });
});

describe("draws that were repeated until they were accepted", () => {
  /** No group all in the first half of the list. */
  const spread =
    (units: readonly PlacedScore[]): Acceptance =>
    (labels) =>
      [0, 1, 2].every((group) => {
        const places = [...labels.keys()].filter((at) => labels[at] === group);
        return places.length === 0 || places.some((at) => at >= units.length / 2);
      });

  test.each<[string, string[]]>([
    ["free", ["a b a b c c"]],
    ["within blocks", ["a b b", "b a a"]],
    ["batches", ["ab ab cd cd"]],
  ])("only what the draw would have accepted counts: %s", (_, blocks) => {
    for (let seed = 1; seed <= 6; seed++) {
      const { below } = seededRandom(seed);
      const units = layout(
        blocks,
        Array.from({ length: 8 }, () => below(30)),
      );
      const accepts = spread(units);
      if (!accepts(Uint8Array.from(units, (unit) => unit.group))) continue;
      const { p } = placedRearrangementTest(units, { ...ask, accepts });
      expect(p).toBeCloseTo(
        bruteForce(units, largestOfPairs(units), (labels) => accepts(Uint8Array.from(labels))),
        10,
      );
    }
  });

  test("two and two in a row, none all in the first half: four of six ways, so the clearest comes once in two", () => {
    // abab abba baab baba are left; scores 1 2 3 4: 0, 0 apart are abba and baab.
    const units = layout(["a b a b"], [1, 2, 3, 4]);
    expect(smallestPlacedP(units, { seed: 1, accepts: spread(units) })).toBe(0.5);
    expect(smallestPlacedP(units, { seed: 1 })).toBeCloseTo(1 / 3, 10);
  });

  test("too many to count are drawn, and the drawn p lies by the counted one", () => {
    const { next } = seededRandom(3);
    const small = layout(["a a a a a b b b b b"], Array.from({ length: 10 }, next));
    const alternating = small.map((unit, at) => ({ ...unit, group: at % 2 }));
    const exact = placedRearrangementTest(alternating, { ...ask, accepts: spread(alternating) });
    expect(exact.drawn).toBeNull();
    const large = Array.from(
      { length: 30 },
      (_, at): PlacedScore => ({ score: next(), group: at % 3, block: "", plot: "" }),
    );
    const drawn = placedRearrangementTest(large, { ...ask, draws: 999, accepts: spread(large) });
    expect(drawn.drawn).toBe(999);
    expect(placedRearrangementTest(large, { ...ask, draws: 999, accepts: spread(large) })).toEqual(drawn);
    const free = rearrangementTest(large, { ...ask, draws: 999 });
    expect(Math.abs(drawn.p - free.p)).toBeLessThan(0.1);
  });

  test("labels that the draw would not have given are refused", () => {
    const units = layout(["a a b b"], [1, 2, 3, 4]);
    expect(() => placedRearrangementTest(units, { ...ask, accepts: spread(units) })).toThrow(
      /^spread is "these labels"/,
    );
  });
});
