import { describe, expect, test } from "vitest";
import { yatesOats } from "../../../tests/yates-oats.ts";
import { balancedIncompleteBlock } from "./balanced-incomplete-block.ts";
import { blockAnova } from "./block-anova.ts";
import { friedman } from "./friedman.ts";
import { pairedT } from "./paired-t.ts";
import { splitPlotAnova } from "./split-plot-anova.ts";

const confidence = 0.95;

describe("blocks", () => {
  test("three blocks of two by hand: SS 1.5, 4.33, 1; F 3", () => {
    const found = blockAnova({
      rows: [
        [2, 3],
        [4, 4],
        [1, 3],
      ],
    });
    expect(found).toMatchObject({ dfTreatment: 1, dfBlock: 2, dfError: 2 });
    expect(found.ssTreatment).toBeCloseTo(1.5, 12);
    expect(found.ssBlock).toBeCloseTo(13 / 3, 12);
    expect(found.ssError).toBeCloseTo(1, 12);
    expect(found.f).toBeCloseTo(3, 12);
  });

  test("two treatments: F is the square of the paired t", () => {
    const a = [12.1, 9.8, 14.4, 10.9];
    const b = [10.2, 9.9, 11, 9.1];
    const { f, p } = blockAnova({ rows: a.map((one, at) => [one, b[at]!]) });
    const paired = pairedT({ a, b, confidence });
    expect(f).toBeCloseTo(paired.t ** 2, 10);
    expect(p).toBeCloseTo(paired.p, 12);
  });

  test("a whole block shifted changes nothing but the blocks", () => {
    const rows = [
      [4.1, 5, 6.2],
      [3.8, 5.1, 5.9],
      [4.6, 5.6, 6.9],
    ];
    const shifted = blockAnova({ rows: [rows[0]!, rows[1]!.map((x) => x + 100), rows[2]!] });
    expect(shifted.f).toBeCloseTo(blockAnova({ rows }).f, 6);
  });

  test("Friedman with ties: rank sums 14.5, 10, 5.5; chi-square 9", () => {
    const found = friedman({
      rows: [
        [9, 7, 5],
        [8, 7, 6],
        [9, 8, 4],
        [9, 6, 6],
        [8, 8, 5],
      ],
    });
    expect(found.rankSums).toEqual([14.5, 10, 5.5]);
    expect(found.chi2).toBeCloseTo(9, 12);
    expect(found.p).toBeCloseTo(Math.exp(-4.5), 12); // chi-square with 2 df
  });

  test("split plot: Yates's oats (R data set Oats)", () => {
    const found = splitPlotAnova({ values: yatesOats });
    expect(found.fWhole).toBeCloseTo(1.485, 3);
    expect(found.fSub).toBeCloseTo(37.69, 2);
    expect(found.fInteraction).toBeCloseTo(0.303, 3);
    const parts =
      found.ssBlock + found.ssWhole + found.ssWholeError + found.ssSub + found.ssInteraction + found.ssSubError;
    const all = yatesOats.flat(2);
    const mean = all.reduce((sum, one) => sum + one, 0) / all.length;
    expect(parts).toBeCloseTo(
      all.reduce((sum, one) => sum + (one - mean) ** 2, 0),
      6,
    );
  });

  test("incomplete blocks: four catalysts in four batches (textbook, from memory: adjusted 22.75, error 3.25)", () => {
    const batches = {
      1: { A: 73, C: 73, D: 75 },
      2: { A: 74, B: 75, C: 75 },
      3: { B: 67, C: 68, D: 72 },
      4: { A: 71, B: 72, D: 75 },
    };
    const observations = Object.entries(batches).flatMap(([block, row]) =>
      Object.entries(row).map(([treatment, one]) => ({ block, treatment, value: one })),
    );
    const found = balancedIncompleteBlock({ observations });
    expect(found).toMatchObject({ replications: 3, blockSize: 3, lambda: 2, dfError: 5 });
    expect(found.ssTreatmentAdjusted).toBeCloseTo(22.75, 10);
    expect(found.ssError).toBeCloseTo(3.25, 10);
    expect(found.effects.reduce((sum, one) => sum + one, 0)).toBeCloseTo(0, 12);
    expect(balancedIncompleteBlock({ observations: [...observations].reverse() }).f).toBeCloseTo(found.f, 9);
    expect(() => balancedIncompleteBlock({ observations: observations.slice(1) })).toThrow(/^observations is/);
  });

  test("complete blocks are the limit of incomplete ones", () => {
    const rows = [
      [4.1, 5, 6.2],
      [3.8, 5.1, 5.9],
      [4.6, 5.6, 6.9],
    ];
    const observations = rows.flatMap((row, block) => row.map((one, treatment) => ({ block, treatment, value: one })));
    expect(balancedIncompleteBlock({ observations }).f).toBeCloseTo(blockAnova({ rows }).f, 8);
  });
});
