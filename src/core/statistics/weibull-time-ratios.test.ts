import { describe, expect, test } from "vitest";
import { timeFactor } from "./time-factor.ts";
import { type TreatedTime, timeRatioModel } from "./weibull-time-ratios.ts";

type Looks = readonly (readonly [number, number | null, string?])[];

function treated(groups: Record<string, Looks>): TreatedTime[] {
  return Object.entries(groups).flatMap(([treatment, looks]) =>
    looks.map(([leftDays, rightDays, block = ""], at) => ({
      leftDays,
      rightDays,
      treatment,
      block,
      unit: `${treatment} ${at}`,
    })),
  );
}

const bare: Looks = [
  [7, 14],
  [14, 21],
  [14, 21],
  [21, 28],
];
const oiled: Looks = [
  [28, 42],
  [42, 56],
  [56, 84],
  [84, null],
];
const untouched: Looks = [
  [84, null],
  [84, null],
  [84, null],
  [84, null],
];

describe("time ratio", () => {
  test("two treatments: the time factor of the published fit, turned when they swap", () => {
    const model = timeRatioModel(treated({ bare, oiled }))!;
    const asIntervals = (looks: Looks) => looks.map(([leftDays, rightDays]) => ({ leftDays, rightDays }));
    const peer = timeFactor({
      distribution: "weibull",
      control: asIntervals(bare),
      treated: asIntervals(oiled),
      confidence: 0.95,
    });
    const ratio = model.ratio("oiled", "bare", 0.95);
    expect(ratio.value).toBeCloseTo(peer.timeFactor!, 5);
    // The plain chi-square limits are too narrow for 4 against 4.
    expect(ratio.lower!).toBeLessThan(peer.lower!);
    expect(ratio.upper!).toBeGreaterThan(peer.upper!);
    const swapped = model.ratio("bare", "oiled", 0.95);
    expect(swapped.value! * ratio.value!).toBeCloseTo(1, 6);
    expect(swapped.lower! * ratio.upper!).toBeCloseTo(1, 5);
  });

  test("N units in k treatments leave N - k degrees of freedom; less confidence, a narrower interval about the same value", () => {
    const model = timeRatioModel(treated({ bare, oiled }))!;
    expect(model.df).toBe(6);
    const [usual, narrow] = [model.ratio("oiled", "bare", 0.95), model.ratio("oiled", "bare", 0.9)];
    expect(narrow.value).toBe(usual.value);
    expect(narrow.lower!).toBeGreaterThan(usual.lower!);
    expect(narrow.upper!).toBeLessThan(usual.upper!);
  });

  test("a treatment that never rusted has a lower limit only", () => {
    const model = timeRatioModel(treated({ bare, oiled, untouched }))!;
    const ratio = model.ratio("untouched", "bare", 0.95);
    expect(ratio.value).toBeNull();
    expect(ratio.upper).toBeNull();
    expect(ratio.lower!).toBeGreaterThan(1);
    const turned = model.ratio("bare", "untouched", 0.95);
    expect(turned.lower).toBeNull();
    expect(turned.upper! * ratio.lower!).toBeCloseTo(1, 5);
  });

  test.each<[string, Record<string, Looks>]>([
    [
      "control in one cell, treated clean",
      {
        bare: [
          [0, 7],
          [0, 7],
          [0, 7],
        ],
        untouched,
      },
    ],
    [
      "all in one cell",
      {
        bare: [
          [7, 14],
          [7, 14],
        ],
        oiled: [
          [7, 14],
          [7, 14],
        ],
      },
    ],
    [
      "each group in its own cell",
      {
        bare: [
          [7, 14],
          [7, 14],
        ],
        oiled: [
          [21, 28],
          [21, 28],
        ],
      },
    ],
    [
      "two touching cells: any steep enough curve fits as well",
      {
        bare: [
          [0, 7],
          [0, 7],
          [7, 14],
        ],
        untouched,
      },
    ],
    ["nothing rusted", { bare: untouched, untouched }],
  ])("no finite shape: %s", (_, groups) => expect(timeRatioModel(treated(groups))).toBeNull());

  test("equivalence: alike within a wide margin, not within a narrow one, never when one is far off", () => {
    const model = timeRatioModel(treated({ bare, twin: bare, oiled }))!;
    expect(model.equivalenceP("bare", "twin", 5)).toBeLessThan(0.01);
    expect(model.equivalenceP("bare", "twin", 1.1)).toBeGreaterThan(0.2);
    expect(model.equivalenceP("oiled", "bare", 1.5)).toBeGreaterThan(0.9);
  });

  test("blocks enter from 12 degrees of freedom on, and not where a block never rusted", () => {
    const inBlocks = (blocks: number, shift: number): Looks =>
      Array.from({ length: blocks }, (_, at): [number, number, string] => {
        const week = 1 + ((5 * at + 3 * shift * (at + 1)) % 7);
        return [7 * week, 7 * week + 7, `block ${at}`];
      });
    const large = { a: inBlocks(8, 1), b: inBlocks(8, 2), c: inBlocks(8, 3) };
    expect(timeRatioModel(treated(large))).toMatchObject({ blocksIn: true, df: 24 - 3 - 7 });
    const small = { a: inBlocks(6, 1), b: inBlocks(6, 2) };
    expect(timeRatioModel(treated(small))).toMatchObject({ blocksIn: false, df: 10 });
    const clean = treated(large).map((time) => (time.block === "block 3" ? { ...time, rightDays: null } : time));
    expect(timeRatioModel(clean)).toMatchObject({ blocksIn: false });
  });

  test("several coupons of one dip weigh as one", () => {
    const single = timeRatioModel(treated({ bare, oiled }))!;
    const doubled = timeRatioModel(treated({ bare, oiled }).flatMap((time) => [time, time]))!;
    expect(doubled.df).toBe(single.df);
    expect(doubled.ratio("oiled", "bare", 0.95).lower!).toBeCloseTo(single.ratio("oiled", "bare", 0.95).lower!, 6);
  });

  test("days or weeks, the ratio is the same", () => {
    const weeks = treated({ bare, oiled }).map((time) => ({
      ...time,
      leftDays: time.leftDays / 7,
      rightDays: time.rightDays && time.rightDays / 7,
    }));
    const [inDays, inWeeks] = [timeRatioModel(treated({ bare, oiled }))!, timeRatioModel(weeks)!];
    expect(inWeeks.ratio("oiled", "bare", 0.95).upper!).toBeCloseTo(inDays.ratio("oiled", "bare", 0.95).upper!, 5);
  });
});
