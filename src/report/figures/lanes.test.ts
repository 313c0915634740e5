import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { labelsThatFit, packLanes } from "./lanes.ts";

describe("lanes of marks", () => {
  test.each([
    ["no mark", [], []],
    ["one mark", [[0, 10]], [0]],
    [
      "apart: one lane",
      [
        [0, 10],
        [20, 30],
      ],
      [0, 0],
    ],
    [
      "tied: one lane each, in their order",
      [
        [5, 9],
        [5, 9],
        [5, 9],
      ],
      [0, 1, 2],
    ],
    [
      "closer than the gap: two lanes",
      [
        [0, 10],
        [11, 20],
      ],
      [0, 1],
    ],
    [
      "a freed lane is used again",
      [
        [0, 30],
        [0, 10],
        [15, 25],
      ],
      [1, 0, 0],
    ],
  ])("%s", (_name, spans, lanes) => {
    expect(
      packLanes(
        spans.map(([from, to]) => ({ from: from!, to: to! })),
        2,
      ),
    ).toEqual(lanes);
  });

  test("two marks of one lane never touch", () => {
    const span = fc.tuple(fc.integer({ min: 0, max: 300 }), fc.integer({ min: 1, max: 60 }));
    fc.assert(
      fc.property(fc.array(span, { maxLength: 60 }), (raw) => {
        const spans = raw.map(([from, length]) => ({ from, to: from + length }));
        const lanes = packLanes(spans, 2);
        return spans.every((a, i) =>
          spans.every((b, j) => i === j || lanes[i] !== lanes[j] || a.to + 2 <= b.from || b.to + 2 <= a.from),
        );
      }),
    );
  });
});

describe("labels along an axis", () => {
  const at = (...centres: number[]) => centres.map((centre) => ({ centre, width: 20 }));
  test.each([
    ["none", at(), []],
    ["one", at(5), [5]],
    ["all fit", at(0, 50, 100), [0, 50, 100]],
    ["a crowded one in the middle goes", at(0, 50, 60, 100), [0, 50, 100]],
    ["the last goes where only one fits", at(0, 10), [0]],
    ["what would touch the last goes", at(0, 50, 90, 100), [0, 50, 100]],
  ])("%s", (_name, labels, kept) => {
    expect(labelsThatFit(labels, 4).map((label) => label.centre)).toEqual(kept);
  });
});
