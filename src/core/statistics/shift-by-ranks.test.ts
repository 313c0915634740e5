import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { hodgesLehmann } from "./hodges-lehmann.ts";
import { type BlockedValue, shiftedRankSum, shiftWithLimits } from "./shift-by-ranks.ts";
import { wilcoxonExact } from "./wilcoxon-exact.ts";

const free = (...values: number[]): BlockedValue[] => values.map((value) => ({ value, block: "" }));
const blocked = (...values: number[]): BlockedValue[] => values.map((value, at) => ({ value, block: String(at) }));

describe("shift by ranks", () => {
  test("by hand, 3 against 3: at 90 % the limits are the outermost differences", () => {
    // Differences of {5, 6, 8} and {1, 2, 3}: 2 to 7, median of 2 3 3 4 4 5 5 6 7.
    expect(shiftWithLimits(free(5, 6, 8), free(1, 2, 3), 0.1)).toEqual({ value: 4, lower: 2, upper: 7 });
  });

  test("3 against 3 at 95 %: no shift is far enough to be rejected, so there are no limits", () =>
    expect(shiftWithLimits(free(5, 6, 8), free(1, 2, 3), 0.05)).toEqual({ value: 4, lower: null, upper: null }));

  test("6 blocks of one each: all differences but the outermost are 0.031 apart", () => {
    const first = blocked(5, 6, 7, 8, 9, 10);
    const second = blocked(4, 4, 4, 4, 4, 4);
    const { value } = shiftWithLimits(first, second, 0.05);
    // Within blocks: 1 2 3 4 5 6.
    expect(value).toBe(3.5);
    expect(shiftedRankSum(first, second, 0).twoSided).toBeCloseTo(2 / 64, 12);
  });

  test("unequal groups without ties: the interval of Hodges and Lehmann", () => {
    const distinct = fc.uniqueArray(fc.integer({ min: 0, max: 2000 }), { minLength: 9, maxLength: 9 });
    fc.assert(
      fc.property(distinct, (numbers) => {
        // Odd steps keep differences distinct enough; ties among differences do not matter for the ends.
        const [first, second] = [numbers.slice(0, 4), numbers.slice(4)];
        const peer = hodgesLehmann({ first, second, confidence: 0.95 });
        const own = shiftWithLimits(free(...first), free(...second), 0.05);
        expect(own.value).toBeCloseTo(peer.estimate, 9);
        expect(own.lower).toBeCloseTo(peer.lower!, 9);
        expect(own.upper).toBeCloseTo(peer.upper!, 9);
      }),
      { numRuns: 40 },
    );
  });

  test("at shift 0 it is the exact rank-sum test, ties and unequal groups", () => {
    const group = fc.array(fc.integer({ min: 0, max: 5 }), { minLength: 1, maxLength: 7 });
    fc.assert(
      fc.property(group, group, (first, second) => {
        const shares = shiftedRankSum(free(...first), free(...second), 0);
        const peer = wilcoxonExact({ first, second });
        expect(shares.twoSided).toBeCloseTo(peer.exactP, 10);
        expect(shares.atLeast).toBeCloseTo(peer.exactPGreater, 10);
      }),
    );
  });

  test("0.3 + 0.6 ties with 0.9", () => expect(shiftedRankSum(free(0.9), free(0.3), 0.6).twoSided).toBe(1));

  test("swapped groups turn the shift", () => {
    const group = fc.array(fc.integer({ min: 0, max: 9 }), { minLength: 2, maxLength: 6 });
    fc.assert(
      fc.property(group, group, (first, second) => {
        const one = shiftWithLimits(free(...first), free(...second), 0.2);
        const other = shiftWithLimits(free(...second), free(...first), 0.2);
        expect(one.value + other.value).toBeCloseTo(0, 12);
        expect(one.lower === null).toBe(other.upper === null);
        expect((one.lower ?? 0) + (other.upper ?? 0)).toBeCloseTo(0, 12);
      }),
      { numRuns: 60 },
    );
  });
});
