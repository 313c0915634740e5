import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { breakthroughInterval, strokesPerMicrometre } from "./breakthrough.ts";

describe("worn through", () => {
  test("a finer check inside the interval only narrows it", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 400 }), fc.integer({ min: 2, max: 60 }), (wornAt, everyStrokes) => {
        const checksEvery = (step: number) =>
          Array.from({ length: Math.ceil(500 / step) }, (_, at) => ({
            strokes: (at + 1) * step,
            worn: (at + 1) * step >= wornAt,
          }));
        const coarse = breakthroughInterval({ checks: checksEvery(everyStrokes) });
        const fine = breakthroughInterval({ checks: checksEvery(1) });
        expect(coarse.leftStrokes).toBeLessThanOrEqual(fine.leftStrokes);
        expect(coarse.rightStrokes).toBeGreaterThanOrEqual(fine.rightStrokes!);
        expect(fine.rightStrokes! - fine.leftStrokes).toBe(1);
      }),
    );
  });

  test("worn at the first look: between 0 and that look", () => {
    expect(breakthroughInterval({ checks: [{ strokes: 20, worn: true }] })).toEqual({
      leftStrokes: 0,
      rightStrokes: 20,
      censored: false,
    });
  });

  test("strokes per micrometre keep an open end open", () => {
    expect(strokesPerMicrometre({ leftStrokes: 300, rightStrokes: null, thicknessUm: 6 })).toEqual({
      lower: 50,
      upper: null,
    });
  });
});
