import { expect, test } from "vitest";
import { detailsOf, emptyDetails, hasNoNumber } from "./tape-details.ts";

test.each([
  ["nothing typed", {}, false],
  ["a decimal comma", { thickness: "62,5" }, false],
  ["below freezing", { steelTemp: "-2" }, false],
  ["words in place of a number", { passes: "two" }, true],
  ["one and a half or fifteen hundred?", { flash: "1,500" }, true],
])("%s: is a number of the paint unreadable? %j %s", (_, typed, expected) =>
  expect(hasNoNumber({ ...emptyDetails, ...typed })).toBe(expected),
);

test("paint nobody wrote down is null, a single number of it is kept beside nulls", () => {
  expect(detailsOf(emptyDetails, "B", "4B", null).painted).toBeNull();
  expect(detailsOf({ ...emptyDetails, cure: "24" }, "B", "4B", null).painted).toMatchObject({
    cureHours: 24,
    passes: null,
  });
});
