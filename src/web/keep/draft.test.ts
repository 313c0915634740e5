import { describe, expect, test } from "vitest";
import { restored } from "./draft.ts";

describe("a half-typed form comes back", () => {
  const fresh = { note: "", coupons: ["1"], startedAt: "" };
  test("what was typed", () =>
    expect(restored(fresh, { note: "too hot", coupons: [] })).toEqual({ note: "too hot", coupons: [], startedAt: "" }));
  test("a field the form no longer has is dropped", () => expect(restored(fresh, { tempF: "203" })).toEqual(fresh));
  test("a field whose kind changed starts afresh", () => expect(restored(fresh, { coupons: "1, 2" })).toEqual(fresh));
  test.each([null, 3, "x"])("%j is no form", (kept) => expect(restored(fresh, kept)).toEqual(fresh));
});
