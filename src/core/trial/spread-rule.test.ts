import { expect, test } from "vitest";
import { noTreatmentAllOnOneEdge } from "./spread-rule.ts";

/** A rack as it hangs, a letter for each treatment; a dot is an empty place. */
const places = (...rows: string[]) =>
  rows.flatMap((row, at) =>
    [...row].flatMap((treatment, column) =>
      treatment === "." ? [] : [{ treatment, row: at + 1, column: column + 1 }],
    ),
  );

test.each<[string, string[], boolean]>([
  ["a and b on both rows and at both ends", ["aab", "bba"], true],
  ["both a above, both b below", ["aa", "bb"], false],
  ["both a left, both b right", ["ab", "ab"], false],
  ["corner to corner", ["ab", "ba"], true],
  ["all of a in the last of three rows", ["bbc", "ccb", "aaa"], false],
  ["two of a in the first row, one below", ["aab", "bca", "ccb"], true],
  ["all of a in the middle row: no edge", ["bcb", "aaa", "ccb"], true],
  ["one coupon of a stands on an edge, as it must somewhere", ["ab", "cb", "bc"], true],
  ["one row has no first and last row, but ends", ["abab"], true],
  ["one row, a coupon each", ["ab"], true],
  ["an empty place is nobody's", ["a.b", "b.a"], true],
])("%s", (_, rows, fulfilled) => expect(noTreatmentAllOnOneEdge(places(...rows))).toBe(fulfilled));
