import { describe, expect, test } from "vitest";
import { sumsNearby } from "./sums-nearby.ts";

/** 4 x 3 px:
 *   1  2  3  4
 *   5  6  7  8
 *   9 10 11 12
 */
const picture = Float32Array.from({ length: 12 }, (_, at) => at + 1);
const size = { widthPx: 4, heightPx: 3, reachPx: 1 };
const both = () =>
  sumsNearby(size, 2, (at, times, sums, to) => {
    sums[to]! += times;
    sums[to + 1]! += times * picture[at]!;
  });

describe("sums over the square around a pixel", () => {
  test.each([
    // row column pixels sum, by hand
    [0, 0, 4, 1 + 2 + 5 + 6],
    [1, 1, 9, 1 + 2 + 3 + 5 + 6 + 7 + 9 + 10 + 11],
    [2, 3, 4, 7 + 8 + 11 + 12],
    [0, 2, 6, 2 + 3 + 4 + 6 + 7 + 8],
  ])("row %d, column %d: %d px, %d", (row, column, pixels, sum) =>
    expect([...both()(row, column)]).toEqual([pixels, sum]),
  );

  test("asked in any order, they are the same", () => {
    const asked = both();
    for (const row of [0, 1, 2, 0, 2, 1])
      for (const column of [3, 0, 1, 2]) expect([...asked(row, column)]).toEqual([...both()(row, column)]);
  });

  test("nothing is left behind where a row was passed over", () => {
    const asked = both();
    asked(0, 1);
    expect([...asked(2, 1)]).toEqual([6, 5 + 6 + 7 + 9 + 10 + 11]);
  });
});
