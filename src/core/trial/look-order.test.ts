import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { shuffledForLook } from "./look-order.ts";

const twenty = Array.from({ length: 20 }, (_, at) => String(at + 1));
const shed = { trial: "shed", look: 28 };

describe("the order of looking", () => {
  test.each([
    ["no coupon", []],
    ["one coupon", ["7"]],
  ])("%s", (_name, coupons) => expect(shuffledForLook(coupons, shed)).toEqual(coupons));

  test("every coupon comes once", () => {
    fc.assert(
      fc.property(fc.uniqueArray(fc.string(), { maxLength: 30 }), fc.string(), (coupons, look) => {
        expect(shuffledForLook(coupons, { trial: "shed", look }).sort()).toEqual([...coupons].sort());
      }),
    );
  });

  test("the order in which they were given does not matter", () =>
    expect(shuffledForLook([...twenty].reverse(), shed)).toEqual(shuffledForLook(twenty, shed)));

  test("another look, or another trial, is another order; none is the order of the numbers", () => {
    const orders = [shed, { trial: "shed", look: 35 }, { trial: "barn", look: 28 }].map((of) =>
      shuffledForLook(twenty, of).join(),
    );
    expect(new Set([...orders, twenty.join()]).size).toBe(4);
  });
});
