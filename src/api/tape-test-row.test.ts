import { expect, test } from "vitest";
import { observationBody } from "./observation.ts";

const before = {
  kind: "tape test",
  coupon: "1",
  when: null,
  tapeClass: "4B",
  blind: true,
  note: "",
} as const;

test("a tape test of before, without details, is read as it was", () =>
  expect(observationBody.parse(before)).toEqual(before));

test("with details it comes back whole", () => {
  const details = {
    cut: { form: "cross-cut", spacingMm: 2, cuts: 6 },
    tape: { name: "", qualified: false },
    parted: null,
    eyeClass: "4B",
    photo: null,
    counts: "eye",
    painted: null,
  };
  expect(observationBody.parse({ ...before, details })).toEqual({ ...before, details });
  expect(observationBody.safeParse({ ...before, details: { ...details, counts: "nobody" } }).success).toBe(false);
});
