import { describe, expect, test } from "vitest";
import { scribeCreepback, unscribedAreaRating } from "./scribe-creepback.ts";

describe("creep from a scribe", () => {
  test.each([
    // measured                                                               creep mm  rating  source
    [{ creepbackMm: 0 }, 0, 10, "D1654 Table 1 (published)"],
    [{ creepbackMm: 0.5 }, 0.5, 9, "Table 1, upper limit included (memory)"],
    [{ creepbackMm: 0.51 }, 0.51, 8, "Table 1 (memory)"],
    [{ creepbackMm: 16 }, 16, 1, "Table 1 (memory)"],
    [{ creepbackMm: 16.1 }, 16.1, 0, "Table 1 (published)"],
    [{ overallWidthMm: 11.4, scribeWidthMm: 1 }, 5.2, 4, "(11.4 - 1) / 2"],
    [{ overallWidthMm: 11.1, scribeWidthMm: 1.1 }, 5, 5, "on the limit in spite of binary fractions"],
    [{ overallWidthMm: 1, scribeWidthMm: 1 }, 0, 10, "nothing beyond the scribe"],
    [{ creepAreaMm2: 520, scribeAreaMm2: 100, scribeLengthMm: 100 }, 2.1, 6, "D7087: 420 / 200"],
  ])("%j creeps %d mm: %d (%s)", (measured, creepbackMm, rating, _source) => {
    const found = scribeCreepback(measured);
    expect(found.creepbackMm).toBeCloseTo(creepbackMm, 12);
    expect(found.rating).toBe(rating);
  });

  test.each([
    [{}, "creepbackMm"],
    [{ creepbackMm: -1 }, "creepbackMm"],
    [{ creepbackMm: 1, overallWidthMm: 3, scribeWidthMm: 1 }, "creepbackMm"],
    [{ overallWidthMm: 3 }, "scribeWidthMm"],
    [{ overallWidthMm: 0.8, scribeWidthMm: 1 }, "overallWidthMm"],
    [{ creepAreaMm2: 30, scribeAreaMm2: 42, scribeLengthMm: 84 }, "creepAreaMm2"],
    [{ creepAreaMm2: 520, scribeAreaMm2: 100, scribeLengthMm: 0 }, "scribeLengthMm"],
  ])("%j is refused by %s", (measured, argument) => {
    expect(() => scribeCreepback(measured)).toThrow(new RegExp(`^${argument} is`));
  });
});

describe("area away from the scribe", () => {
  test.each([
    [0, 10, "none"],
    [0.01, 9, "any at all counts as 1 %"],
    [1.4, 9, "whole percent first: 1"],
    [1.5, 8, "whole percent first: 2"],
    [4.3, 7, "whole percent first: 4"],
    [75.4, 1, "whole percent first: 75"],
    [76, 0, "over 75"],
    [100, 0, "all rusted"],
  ])("%d %% rates %d (%s)", (percent, rating) => {
    expect(unscribedAreaRating(percent)).toBe(rating);
  });

  test("refuses 120 %", () => {
    expect(() => unscribedAreaRating(120)).toThrow(/^areaPercent is 120; expected a percentage/);
  });
});
