import { describe, expect, test } from "vitest";
import { latticeOtherClass, latticePhotoClass, leastRemovalSeenPercent, xPhotoClass } from "./tape-photo-class.ts";

describe("a lattice by its removed percent, on both scales", () => {
  test.each([
    // percent, ASTM, ISO: D3359 B and ISO 2409, which part at exactly 5 %
    [0, "5B", 0],
    [leastRemovalSeenPercent - 0.01, "5B", 0],
    [leastRemovalSeenPercent, "4B", 1],
    [5, "3B", 1],
    [5.01, "3B", 2],
    [35, "2B", 3],
    [65.1, "0B", 5],
  ] as const)("%d %% is %s and %d", (percent, d3359, iso) =>
    expect(latticePhotoClass(percent)).toEqual({ d3359, iso }),
  );

  test("refuses what is no percentage", () => expect(() => latticePhotoClass(101)).toThrow(/^removedPercent/));
});

test.each([
  // percent, span, the other class: limits of D3359 B
  [4.6, { from: 3.7, to: 5.5 }, "3B"],
  [5.4, { from: 4.5, to: 6.3 }, "4B"],
  [0.6, { from: 0.2, to: 1 }, "5B"],
  [10, { from: 8.5, to: 11.5 }, null],
  [0, { from: 0, to: 0 }, null],
] as const)("a lattice read at %d %% could as well be %j: %s", (percent, span, other) =>
  expect(latticeOtherClass(percent, span)).toBe(other),
);

describe("an X by what came off along it", () => {
  const nothing = { removedPercent: 0, jagWidthMm: 0, flakedPercent: 0, withinXPercent: 0, beyondXPercent: 0 };
  const jagged = { removedPercent: 30, jagWidthMm: 1.55, flakedPercent: 80, withinXPercent: 25, beyondXPercent: 1 };
  test.each([
    ["nothing", nothing, "5A", 0],
    ["one wide speck on a tenth of the cuts is a trace", { ...jagged, flakedPercent: 9 }, "4A", 1],
    ["jagged, where the two standards part between 1.5 and 1.6 mm", jagged, "3A", 3],
    ["jagged, up to 3.2 mm", { ...jagged, jagWidthMm: 3.1 }, "2A", 4],
    ["half of the X and more", { ...jagged, withinXPercent: 51 }, "1A", 4],
    ["and beyond it", { ...jagged, withinXPercent: 90, beyondXPercent: 20 }, "0A", 5],
  ] as const)("%s", (_, seen, d3359, iso) => expect(xPhotoClass(seen)).toEqual({ d3359, iso }));
});
