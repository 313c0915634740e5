import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { firstRust } from "./first-rust.ts";

/** Days with a * are those on which rust was seen. */
const looks = (text: string) =>
  text.split(" ").map((one) => ({ day: Number(one.replace("*", "")), rusted: one.endsWith("*") }));

describe("first rust", () => {
  test.each([
    ["0 7 14* 21*", { left: 7, right: 14 }, [], "between two looks"],
    ["7* 14* 21*", { left: 0, right: 7 }, [], "at the first look"],
    ["0 7 14", { left: 14, right: null }, [], "not yet"],
    ["0 7 14*", { left: 7, right: 14 }, [], "at the last look"],
    ["0 7* 14 21*", { left: 14, right: 21 }, [7], "rust that went away is not the first"],
    ["0 7* 14", { left: 14, right: null }, [7], "rust that went away for good"],
    ["0 7 21*", { left: 7, right: 21 }, [], "a missed look: the wider interval"],
    ["21* 0 7 14*", { left: 7, right: 14 }, [], "in any order"],
    ["0", null, [], "only day 0 carries nothing"],
  ])("%s: %o, gone again on %o (%s)", (text, datum, vanishedOnDays, _why) => {
    expect(firstRust(looks(text))).toEqual({ datum, vanishedOnDays, rustedOnDay0: false });
  });

  test("no look at all carries nothing", () => {
    expect(firstRust([])).toEqual({ datum: null, vanishedOnDays: [], rustedOnDay0: false });
  });

  test("rust on day 0 is said", () => {
    expect(firstRust(looks("0* 7*")).rustedOnDay0).toBe(true);
  });

  test("the interval always ends at a look with rust, and starts at one without or at 0", () => {
    const look = fc.record({ day: fc.integer({ min: 1, max: 100 }), rusted: fc.boolean() });
    fc.assert(
      fc.property(fc.uniqueArray(look, { selector: (one) => one.day, minLength: 1 }), (all) => {
        const { datum } = firstRust(all);
        const at = (day: number | null) => all.find((one) => one.day === day);
        expect(datum).not.toBeNull();
        if (datum?.right != null) expect(at(datum.right)?.rusted).toBe(true);
        if (datum?.left !== 0) expect(at(datum?.left ?? null)?.rusted).toBe(false);
        expect(all.every((one) => datum?.right == null || one.day < datum.right || one.rusted)).toBe(true);
      }),
    );
  });
});
