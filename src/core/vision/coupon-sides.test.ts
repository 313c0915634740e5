import { describe, expect, test } from "vitest";
import { coupleOfLines, type SideLine, withHue } from "./coupon-sides.ts";

const line = (offsetMm: number, strength: number, by: SideLine["by"] = "light"): SideLine => ({
  ...{ offsetMm, strength, by, share: 1, weight: 1 },
});
/** The rough sides are 60 mm apart, as the plan says. */
const place = { apartMm: 60, expectedMm: 60 };

describe("the pair of opposite lines", () => {
  test.each<[SideLine[], SideLine[], [number, number], string]>([
    [[line(0, 0.5)], [line(0, 0.5)], [0, 0], "one line each"],
    [
      [line(0, 0.5)],
      [line(-0.9, 0.5), line(0, 0.08)],
      [0, 0],
      "a faint edge in its place before a strong shadow's rim 0.9 mm outside",
    ],
    [
      [line(0, 0.5)],
      [line(-0.2, 0.5), line(0.1, 0.05)],
      [0, -0.2],
      "texture of the steel does not outweigh an edge 0.2 mm off the plan",
    ],
    [
      [line(0, 0.5)],
      [line(-0.9, 0.5)],
      [0, -0.9],
      "what is all there is, is taken: whether it may be believed is asked later",
    ],
  ])("%#: %j and %j", (one, other, [first, second], _why) => {
    const couple = coupleOfLines(one, other, place)!;
    expect([couple.first.offsetMm, couple.second.offsetMm]).toEqual([first, second]);
    expect(couple.offMm).toBeCloseTo(-first - second, 9);
  });

  test("none without a line on both sides", () => expect(coupleOfLines([line(0, 0.5)], [], place)).toBeNull());
});

describe("lines of light, weighed by the change of hue", () => {
  test("a rim where the hue stays counts half, the edge where it changes fully", () =>
    expect(withHue([line(-0.9, 0.5), line(0, 0.1)], line(0.2, 0.06, "hue")).map(({ weight }) => weight)).toEqual([
      0.5, 1,
    ]));

  test("where light shows no edge, the hue itself is one", () =>
    expect(withHue([line(-0.9, 0.5)], line(0.2, 0.06, "hue")).map(({ by }) => by)).toEqual(["light", "hue"]));

  test("without a hue nothing changes", () => expect(withHue([line(-0.9, 0.5)], null)).toEqual([line(-0.9, 0.5)]));
});
