import { expect, test } from "vitest";
import { trialsMeant } from "./coupon-address.ts";

const trial = (id: string, unblinded = false) => ({
  id,
  name: id,
  question: "",
  createdAt: "2026-03-01T08:00:00Z",
  coupons: 4,
  unblinded,
});
const shed = trial("3c2f7c0e-6b0b-4a52-9d0e-0d6a4c1f7a11");
const yard = trial("9a2f7c0e-6b0b-4a52-9d0e-0d6a4c1f7a11", true);

test("the first digits of an id mean its own trial, closed or not", () =>
  expect(trialsMeant([shed, yard], "9a2f7c0e")).toEqual([yard]));
test("a number alone means the open trials", () => expect(trialsMeant([shed, yard], null)).toEqual([shed]));
test("no such trial", () => expect(trialsMeant([shed], "00000000")).toEqual([]));
