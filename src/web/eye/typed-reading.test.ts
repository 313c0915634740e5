import { expect, test } from "vitest";
import { readingOf, typedAfter } from "./typed-reading.ts";

test.each([
  // keys, one after another    what stands   percent
  [["3"], "3", 3],
  [["0", "3"], "3", 3],
  [[".", "0", "2"], "0.02", 0.02],
  [["1", ".", ".", "5"], "1.5", 1.5],
  [["4", "5", "Delete"], "4", 4],
  [["1", "0", "1"], "101", null],
  [[], "", null],
])("%j", (keys, stands, percent) => {
  const typed = keys.reduce(typedAfter, "");
  expect(typed).toBe(stands);
  expect(readingOf("percent", typed)).toBe(percent);
});
