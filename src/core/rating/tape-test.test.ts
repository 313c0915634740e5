import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { crossCutClass, crossCutSpacing, d3359CrossCutGrade, iso2409Class } from "./cross-cut.ts";
import { type TapeClass, tapeClasses } from "./tape-classes.ts";
import { tapeTestSummary } from "./tape-test-summary.ts";
import { xCutClass } from "./x-cut.ts";

describe("cross-cut", () => {
  test.each([
    // removed %  D3359  ISO 2409  why
    [0, "5B", 0, "nothing came off"],
    [0.5, "4B", 1, "a flake"],
    [4.9, "4B", 1, ""],
    [5, "3B", 1, "4B is strictly less than 5 %, class 1 is not greater than 5 %"],
    [5.1, "3B", 2, ""],
    [15, "3B", 2, "shared limit: the better class"],
    [35, "2B", 3, "shared limit: the better class"],
    [65, "1B", 4, "0B is strictly more than 65 %"],
    [65.1, "0B", 5, ""],
    [100, "0B", 5, "all off"],
  ] as const)("%d %% removed is %s and class %d (%s)", (percent, astm, iso, _why) => {
    expect(crossCutClass({ areaRemovedPercent: percent, standard: "ASTM D3359" })).toBe(astm);
    expect(crossCutClass({ areaRemovedPercent: percent, standard: "ISO 2409" })).toBe(iso);
  });

  test("but for exactly 5 % the two scales mirror each other", () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 100, noNaN: true }), (percent) => {
        fc.pre(percent !== 5);
        expect(Number(d3359CrossCutGrade(percent)[0]) + iso2409Class(percent)).toBe(5);
      }),
    );
  });

  test.each([
    [
      { thicknessUm: 50, standard: "ASTM D3359" },
      { spacingMm: 1, cuts: 11 },
    ],
    [
      { thicknessUm: 50.1, standard: "ASTM D3359" },
      { spacingMm: 2, cuts: 6 },
    ],
    [
      { thicknessUm: 125, standard: "ASTM D3359" },
      { spacingMm: 2, cuts: 6 },
    ],
    [
      { thicknessUm: 126, standard: "ASTM D3359" },
      { spacingMm: 5, cuts: 6 },
    ],
    [
      { thicknessUm: 60, standard: "ISO 2409", substrate: "hard" },
      { spacingMm: 1, cuts: 6 },
    ],
    [
      { thicknessUm: 60, standard: "ISO 2409", substrate: "soft" },
      { spacingMm: 2, cuts: 6 },
    ],
    [
      { thicknessUm: 61, standard: "ISO 2409", substrate: "hard" },
      { spacingMm: 2, cuts: 6 },
    ],
    [
      { thicknessUm: 250, standard: "ISO 2409", substrate: "soft" },
      { spacingMm: 3, cuts: 6 },
    ],
  ] as const)("%j is cut at %j", (film, spacing) => {
    expect(crossCutSpacing(film)).toEqual(spacing);
  });

  test.each([
    [{ thicknessUm: 251, standard: "ISO 2409" as const, substrate: "hard" as const }, "thicknessUm"],
    [{ thicknessUm: 60, standard: "ISO 2409" as const }, "substrate"],
    [{ thicknessUm: 0, standard: "ASTM D3359" as const }, "thicknessUm"],
  ])("%j is refused by %s", (film, argument) => {
    expect(() => crossCutSpacing(film)).toThrow(new RegExp(`^${argument} is`));
  });
});

describe("X-cut", () => {
  test.each([
    // removal    jag mm   D3359  ISO 16276-2
    ["none", undefined, "5A", 0],
    ["trace", undefined, "4A", 1],
    ["jagged", 1.5, "3A", 2],
    ["jagged", 1.6, "3A", 3],
    ["jagged", 1.7, "2A", 3],
    ["jagged", 3.1, "2A", 4],
    ["jagged", 4, "1A", 4], // wider than the last jag limit: most of the X
    ["mostOfX", undefined, "1A", 4],
    ["beyondX", undefined, "0A", 5],
  ] as const)("%s %s mm is %s and class %d", (removal, jagWidthMm, astm, iso) => {
    const cut = { removal, ...(jagWidthMm === undefined ? {} : { jagWidthMm }) };
    expect(xCutClass({ ...cut, standard: "ASTM D3359" })).toBe(astm);
    expect(xCutClass({ ...cut, standard: "ISO 16276-2" })).toBe(iso);
  });

  test("a jagged edge needs its width", () => {
    expect(() => xCutClass({ standard: "ASTM D3359", removal: "jagged" })).toThrow(/^jagWidthMm is missing/);
  });
});

describe("several tape tests of a panel", () => {
  test.each([
    [["4B", "4B", "3B"], 11 / 3, "4B", "3B", "4B"],
    [["5A"], 5, "5A", "5A", "5A"],
    [["3A", "3A", "1A", "2A"], 2.25, "2A", "1A", "3A"],
    [["0B", "5B"], 2.5, "3B", "0B", "5B"],
  ] as const)("%j: mean %d, reported %s, from %s to %s", (grades, meanClass, reported, worst, best) => {
    expect(tapeTestSummary(grades)).toEqual({
      meanClass,
      reportedGrade: reported,
      worstGrade: worst,
      bestGrade: best,
    });
  });

  test("the order of the tests does not matter", () => {
    const ofX = tapeClasses.filter((one) => one.endsWith("A"));
    fc.assert(
      fc.property(fc.array(fc.constantFrom(...ofX), { minLength: 1, maxLength: 8 }), (grades) => {
        expect(tapeTestSummary([...grades].reverse())).toEqual(tapeTestSummary(grades));
      }),
    );
  });

  test.each([
    [[], /^grades is/],
    [["4B", "4A"], /^grades\[1\] is/],
    [["6B" as TapeClass], /^grades\[0\] is/],
  ])("%j is refused", (grades, message) => {
    expect(() => tapeTestSummary(grades as TapeClass[])).toThrow(message);
  });
});
