import { expect, test } from "vitest";
import { conditionsForm, conditionsOf, unlikeBefore } from "./wear-conditions-form.ts";

const pad = { motion: "strokes", medium: "felt", grit: "P1000", loadG: 500, perMinute: null, by: "jig" } as const;

test("what was written down comes back as it was", () => {
  expect(conditionsOf(conditionsForm(pad))).toEqual(pad);
});

test.each([
  ["the same", {}, []],
  ["another load, by hand", { loadG: "300", by: "hand" }, ["loadG", "by"]],
  ["the grit not written down", { grit: " " }, ["grit"]],
] as const)("%s is told apart from the coupon before", (_, typed, names) => {
  expect(unlikeBefore({ ...conditionsForm(pad), ...typed }, pad)).toEqual(names);
});

test("a load that is no number is not taken for none", () => {
  expect(conditionsOf({ ...conditionsForm(pad), loadG: "heavy" })).toBeNull();
});
