import { describe, expect, test } from "vitest";
import { studentizedRangeSf } from "../numeric/studentized-range-distribution.ts";
import { tTwoSided } from "../numeric/t-distribution.ts";
import { dunnettTail } from "./dunnett-tail.ts";

const loading = (n: number, control: number) => Math.sqrt(n / (n + control));

describe("Dunnett's tail", () => {
  test.each([
    // t            loadings                          df  p               source                                   status
    [3.693752311, [loading(4, 6), loading(5, 6)], 12, 0.005825360848, "blood counts, Dunnett 1955", "memory"],
    [0.8570321259, [loading(4, 6), loading(5, 6)], 12, 0.62010198, "blood counts, both treatments left", "memory"],
    [0.8570321259, [loading(4, 6)], 12, 0.4082170162, "blood counts, the last one left", "memory"],
  ])("t %d with loadings %j and %d df: %d (%s)", (t, loadings, df, p) =>
    expect(dunnettTail(t, loadings, df)).toBeCloseTo(p, 7),
  );

  test.each([0.5, 2, 6, 15])("one treatment: the two-sided t (%d)", (t) => {
    const exact = tTwoSided(t, 5);
    expect(dunnettTail(t, [loading(3, 5)], 5) / exact).toBeCloseTo(1, 7);
  });

  test("p grows with the number of treatments and stays below that of all pairs", () => {
    const equal = (count: number) => Array.from({ length: count }, () => Math.SQRT1_2);
    const tails = [1, 2, 5].map((count) => dunnettTail(2.5, equal(count), 18));
    expect(tails[0]).toBeLessThan(tails[1]!);
    expect(tails[1]).toBeLessThan(tails[2]!);
    expect(tails[2]).toBeLessThan(studentizedRangeSf(2.5 * Math.SQRT2, { groups: 6, df: 18 }));
  });
});
