import { describe, expect, test } from "vitest";
import { blockAnova } from "./block-anova.ts";
import { mean, variance } from "./moments.ts";
import { pairedT } from "./paired-t.ts";
import { type PlacedValue, treatmentBlockFit } from "./treatment-block-fit.ts";

const placed = (rows: number[][], names: string[]): PlacedValue[] =>
  rows.flatMap((row, block) => row.map((value, at) => ({ value, treatment: names[at]!, block: String(block) })));

describe("treatment plus block", () => {
  test("one block, unequal groups: pooled variance and plain means", () => {
    // {1, 3} and {4, 6, 8}: sums of squares 2 and 8, 3 degrees of freedom.
    const values = [1, 3].map((value) => ({ value, treatment: "a", block: "" }));
    const others = [4, 6, 8].map((value) => ({ value, treatment: "b", block: "" }));
    const fit = treatmentBlockFit([...values, ...others]);
    expect(fit.errorDf).toBe(3);
    expect(fit.meanSquare).toBeCloseTo(10 / 3, 12);
    const difference = fit.difference("b", "a")!;
    expect(difference.value).toBeCloseTo(4, 12);
    expect(difference.variance).toBeCloseTo(1 / 2 + 1 / 3, 12);
  });

  test("complete blocks: the analysis of variance of blocks", () => {
    const rows = [
      [5, 7, 9],
      [4, 8, 7],
      [6, 9, 12],
      [3, 4, 8],
    ];
    const fit = treatmentBlockFit(placed(rows, ["a", "b", "c"]));
    const peer = blockAnova({ rows });
    expect(fit.errorDf).toBe(peer.dfError);
    expect(fit.meanSquare).toBeCloseTo(peer.ssError / peer.dfError, 10);
    expect(fit.difference("c", "a")!.variance).toBeCloseTo(2 / 4, 12);
  });

  test("two treatments in pairs: the paired t", () => {
    const rows = [
      [5, 7],
      [4, 8],
      [6, 9],
      [3, 4],
    ];
    const fit = treatmentBlockFit(placed(rows, ["a", "b"]));
    const { value, variance } = fit.difference("b", "a")!;
    const peer = pairedT({ a: rows.map((row) => row[1]!), b: rows.map((row) => row[0]!), confidence: 0.95 });
    expect(value / Math.sqrt(fit.meanSquare! * variance)).toBeCloseTo(peer.t, 10);
    expect(fit.errorDf).toBe(peer.df);
  });

  test("a missing cell: the difference is taken where both were", () => {
    const rows = placed(
      [
        [5, 7],
        [4, 8],
        [6, 9],
      ],
      ["a", "b"],
    );
    const fit = treatmentBlockFit([...rows, { value: 100, treatment: "b", block: "alone" }]);
    expect(fit.difference("b", "a")!.value).toBeCloseTo(mean([2, 4, 3]), 10);
    expect(fit.meanSquare).toBeCloseTo(variance([2, 4, 3]) / 2, 10);
  });

  test("treatments that no block ties together have no difference", () => {
    const fit = treatmentBlockFit([
      { value: 1, treatment: "a", block: "1" },
      { value: 2, treatment: "a", block: "1" },
      { value: 3, treatment: "b", block: "2" },
    ]);
    expect(fit.difference("a", "b")).toBeNull();
    expect(fit.errorDf).toBe(1);
  });

  test("one value of each treatment: no scatter is known", () => {
    const fit = treatmentBlockFit([
      { value: 1, treatment: "a", block: "" },
      { value: 2, treatment: "b", block: "" },
    ]);
    expect(fit).toMatchObject({ errorDf: 0, meanSquare: null });
  });
});
