import { describe, expect, test } from "vitest";
import {
  latticeOtherClass,
  latticePhotoClass,
  leastRemovalSeenPercent,
  xOtherClass,
  xPhotoClass,
} from "./tape-photo-class.ts";

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
  const nothing = { removedPercent: 0, jagWidthMm: 0, farPercent: 0, outsidePercent: 0 };
  const jagged = { removedPercent: 30, jagWidthMm: 1.55, farPercent: 0, outsidePercent: 0 };
  const most = { removedPercent: 74, jagWidthMm: 5.5, farPercent: 80, outsidePercent: 3 };
  test.each([
    // what is seen, ASTM, ISO: D3359 A and ISO 16276-2; shares by this project's rules
    ["nothing", nothing, "5A", 0],
    ["less than a picture shows", { ...jagged, removedPercent: 0.19 }, "5A", 0],
    ["a wide flake, 0.15 mm on average along the cuts, is a trace", { ...jagged, removedPercent: 4.9 }, "4A", 1],
    ["and so is what is nowhere wider than 0.4 mm", { ...jagged, removedPercent: 9, jagWidthMm: 0.39 }, "4A", 1],
    ["jagged, where the two standards part between 1.5 and 1.6 mm", jagged, "3A", 3],
    ["jagged to 1.6 mm", { ...jagged, jagWidthMm: 1.6 }, "3A", 3],
    [
      "jagged, up to 3.2 mm, takes more than half of a narrow X",
      { ...jagged, removedPercent: 72, jagWidthMm: 3.1 },
      "2A",
      4,
    ],
    ["jagged wider than the scale", { ...jagged, removedPercent: 75, jagWidthMm: 3.3 }, "1A", 4],
    ["most of the X", most, "1A", 4],
    ["all of it and well outside", { ...most, outsidePercent: 90 }, "0A", 5],
  ] as const)("%s", (_, seen, d3359, iso) => expect(xPhotoClass(seen)).toEqual({ d3359, iso }));

  test.each([
    ["a jag of 1.5 mm may reach 1.6", { ...jagged, jagWidthMm: 1.5 }, "2A"],
    ["one of 1.2 mm does not", { ...jagged, jagWidthMm: 1.2 }, null],
    ["a trace of 0.4 % may be nothing", { ...jagged, removedPercent: 0.4 }, "5A"],
    ["most of the X, half of its outside gone", { ...most, outsidePercent: 50 }, "1A"],
    ["nothing is nothing", nothing, null],
  ] as const)("%s", (_, seen, other) =>
    expect(
      xOtherClass(seen, {
        from: Math.max(0, 0.94 * seen.removedPercent - 0.3),
        to: Math.min(100, 1.06 * seen.removedPercent),
      }),
    ).toBe(other),
  );
});
