import fc from "fast-check";
import { expect, test } from "vitest";
import { nthOf } from "./nth-of.ts";

test("is what stands there after sorting, with equal values, too", () => {
  fc.assert(
    fc.property(
      fc.array(fc.integer({ min: -5, max: 20 }), { minLength: 1, maxLength: 40 }),
      fc.nat(39),
      (values, at) => {
        const nth = at % values.length;
        expect(nthOf(Float32Array.from(values), nth)).toBe(Float32Array.from(values).sort()[nth]);
      },
    ),
  );
});

test("refuses a place beyond the last value", () => expect(() => nthOf(Float32Array.of(1, 2), 2)).toThrow("nth is 2"));
