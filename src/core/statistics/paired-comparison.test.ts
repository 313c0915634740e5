import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { hodgesLehmannPaired } from "./hodges-lehmann-paired.ts";
import { permutationPaired } from "./permutation-paired.ts";
import { signTest } from "./sign-test.ts";
import { wilcoxonSignedRank } from "./wilcoxon-signed-rank.ts";

const differences = fc.array(fc.integer({ min: -6, max: 6 }), { minLength: 1, maxLength: 9 });

/** Share of all turns of signs whose sum of scores is at least as far from 0. */
function bySigns(scores: readonly number[], observed: number): number {
  let far = 0;
  for (let set = 0; set < 1 << scores.length; set++) {
    const sum = scores.reduce((total, score, at) => total + (set & (1 << at) ? score : -score), 0);
    if (Math.abs(sum) >= Math.abs(observed) - 1e-9) far++;
  }
  return far / 2 ** scores.length;
}

describe("pairs, the smallest first", () => {
  test.each([
    ["one pair shows nothing", [4], 1],
    ["all alike", [0, 0, 0], 1],
    ["five the same way reach 0.0625 and no more", [2, 5, 1, 7, 3], 0.0625],
    ["six the same way", [1, 2, 3, 4, 5, 6], 0.03125],
    ["the same six in reverse", [-1, -2, -3, -4, -5, -6], 0.03125],
  ])("%s", (_, given, exactP) => {
    expect(permutationPaired({ differences: given }).exactP).toBeCloseTo(exactP, 14);
    expect(wilcoxonSignedRank({ differences: given }).exactP).toBeCloseTo(exactP, 14);
    expect(signTest({ differences: given }).exactP).toBeCloseTo(exactP, 14);
  });

  test("zeros: dropped before ranking, or ranked with and dropped after", () => {
    const given = [0, 1, -2];
    // Without the zero the ranks are 1 and 2; with it 2 and 3.
    expect(wilcoxonSignedRank({ differences: given, zeros: "drop" }).v).toBe(1);
    expect(wilcoxonSignedRank({ differences: given, zeros: "pratt" }).v).toBe(2);
    expect(signTest({ differences: given })).toMatchObject({
      positives: 1,
      negatives: 1,
      zeros: 1,
      exactP: 1,
    });
  });

  test("all zero: no asymptotic p, mid-p one half", () => {
    expect(wilcoxonSignedRank({ differences: [0, 0] })).toMatchObject({ v: 0, exactP: 1, asymptoticP: null });
    expect(signTest({ differences: [0, 0] }).midP).toBe(0.5);
  });
});

describe("pairs, laws", () => {
  test("the exact p is the share of all turns of signs", () => {
    fc.assert(
      fc.property(differences, (given) => {
        const sum = given.reduce((total, one) => total + one, 0);
        expect(permutationPaired({ differences: given }).exactP).toBeCloseTo(bySigns(given.map(Math.abs), sum), 12);
        const used = given.filter((one) => one !== 0);
        const signs = used.reduce((total, one) => total + Math.sign(one), 0);
        expect(signTest({ differences: given }).exactP).toBeCloseTo(
          bySigns(
            used.map(() => 1),
            signs,
          ),
          12,
        );
      }),
      { numRuns: 60 },
    );
  });

  test("values with many digits tie as their short forms do", () => {
    fc.assert(
      fc.property(differences, (given) => {
        const long = given.map((one) => one * Math.log(3));
        expect(permutationPaired({ differences: long }).exactP).toBe(permutationPaired({ differences: given }).exactP);
      }),
    );
  });

  test("turn all signs: the tails change places", () => {
    fc.assert(
      fc.property(differences, (given) => {
        const turned = given.map((one) => -one);
        for (const method of [permutationPaired, wilcoxonSignedRank, signTest]) {
          const [one, other] = [method({ differences: given }), method({ differences: turned })];
          expect(other.exactPGreater).toBeCloseTo(one.exactPLess, 12);
          expect(other.exactP).toBeCloseTo(one.exactP, 12);
        }
      }),
    );
  });

  test("the estimate moves along with the differences", () => {
    fc.assert(
      fc.property(differences, fc.integer({ min: -9, max: 9 }), (given, shift) => {
        const one = hodgesLehmannPaired({ differences: given, confidence: 0.8 });
        const moved = hodgesLehmannPaired({ differences: given.map((d) => d + shift), confidence: 0.8 });
        expect(moved.estimate).toBeCloseTo(one.estimate + shift, 10);
        expect(moved.lower === null).toBe(one.lower === null);
        expect((moved.upper ?? shift) - shift).toBeCloseTo(one.upper ?? 0, 10);
      }),
    );
  });
});

describe("pairs refuse", () => {
  test("an empty list, a value that is not finite, an unknown treatment of zeros", () => {
    expect(() => permutationPaired({ differences: [] })).toThrow(/^differences is \[\]/);
    expect(() => signTest({ differences: [1, Number.NaN] })).toThrow(/^differences\[1\] is NaN/);
    expect(() => wilcoxonSignedRank({ differences: [1], zeros: "split" as "drop" })).toThrow(/^zeros is "split"/);
    expect(() => hodgesLehmannPaired({ differences: [1], confidence: 1 })).toThrow(/^confidence is 1/);
  });
});
