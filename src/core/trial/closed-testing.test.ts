import { describe, expect, test } from "vitest";
import { closedAgainstControl, closedAllPairs } from "./closed-testing.ts";

describe("closed testing against the control", () => {
  test("by hand, two finishes: each carries the p of both together", () => {
    const p = new Map([
      [0b01, 0.01],
      [0b10, 0.3],
      [0b11, 0.04],
    ]);
    expect(closedAgainstControl(2, (set) => p.get(set)!)).toEqual([
      { p: 0.04, lowerBound: false },
      { p: 0.3, lowerBound: false },
    ]);
  });

  test("one finish: its own p", () =>
    expect(closedAgainstControl(1, () => 0.2)).toEqual([{ p: 0.2, lowerBound: false }]));

  test.each([
    [6, 63, false, "every set is asked"],
    [8, 8, true, "the eight pairs have failed by themselves, nothing larger is asked"],
  ])("%d finishes without any difference ask %d sets (lower bound: %s; %s)", (members, asked, lowerBound) => {
    let count = 0;
    const adjusted = closedAgainstControl(members, () => {
      count++;
      return 0.5;
    });
    expect(count).toBe(asked);
    expect(adjusted.every((one) => one.p === 0.5 && one.lowerBound === lowerBound)).toBe(true);
  });
});

describe("closed testing of all pairs", () => {
  test("by hand, three treatments: a pair stands or falls with all three", () => {
    const p = new Map([
      [0b011, 0.01],
      [0b101, 0.02],
      [0b110, 0.6],
      [0b111, 0.03],
    ]);
    const adjusted = closedAllPairs(3, (set) => p.get(set)!);
    expect(adjusted(0, 1)).toEqual({ p: 0.03, lowerBound: false });
    expect(adjusted(2, 1)).toEqual({ p: 0.6, lowerBound: false });
  });

  test("by hand, four treatments: two pairs at once count as 1 - (1 - smallest p)²", () => {
    const pairP = new Map([
      [0b0011, 0.03],
      [0b1100, 0.9],
    ]);
    const adjusted = closedAllPairs(4, (set) => pairP.get(set) ?? 0.001);
    // {0, 1} alone 0.03; {0, 1} with {2, 3}: 1 - 0.97² = 0.0591.
    expect(adjusted(0, 1).p).toBeCloseTo(1 - 0.97 ** 2, 12);
  });

  test("two treatments: their own p", () => expect(closedAllPairs(2, () => 0.04)(0, 1).p).toBe(0.04));

  test("never below the pair's own p", () => {
    const own = (set: number) => ((set * 37) % 101) / 101;
    const adjusted = closedAllPairs(5, own);
    for (const [a, b] of [
      [0, 1],
      [1, 4],
      [2, 3],
    ] as const)
      expect(adjusted(a, b).p).toBeGreaterThanOrEqual(own((1 << a) | (1 << b)));
  });
});
