import { describe, expect, test } from "vitest";
import { instantFromTyped, offsetText, typedFromInstant } from "./clock.ts";

describe("times as typed on this device's clock", () => {
  test("the instant keeps the clock's own reading and its offset", () => {
    const instant = instantFromTyped("2026-03-01T14:05")!;
    expect(instant).toMatch(/^2026-03-01T14:05:00[+-]\d\d:\d\d$/);
    expect(typedFromInstant(instant)).toBe("2026-03-01T14:05");
  });
  test.each(["", "2026-03-01", "2026-13-01T10:00"])("%j is no time", (typed) =>
    expect(instantFromTyped(typed)).toBeNull(),
  );
  test.each([
    [0, "+00:00"],
    [330, "+05:30"],
    [-210, "-03:30"],
  ])("%d minutes east is %s", (minutes, text) => expect(offsetText(minutes)).toBe(text));
});
