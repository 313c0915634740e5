import { describe, expect, test } from "vitest";
import { renderCoupon } from "../../../tests/rendered-coupon.ts";
import { faceRectangle } from "./assessed-face.ts";
import { rectify } from "./rectify.ts";
import { type FoundRust, rustByModel } from "./rust-by-model.ts";
import { rustModel1 } from "./rust-model-1.ts";
import { rustUncertainty } from "./rust-uncertainty.ts";

const from = rustModel1.rustFromLogOdds;
/** 20 x 20 px: the first `rust` pixels at one log odds above the limit, the rest as far below it. */
function found(rust: number, away: number): FoundRust {
  const logOdds = Float32Array.from({ length: 400 }, (_, at) => from + (at < rust ? away : -away));
  return { widthPx: 20, heightPx: 20, logOdds, marks: Uint8Array.from(logOdds, (odds) => (odds >= from ? 255 : 0)) };
}
const everything = new Uint8Array(400).fill(255);

describe("how far a percentage may be off", () => {
  test("nothing in doubt: the limits lie at the percentage", () => {
    const { percent, lower, upper } = rustUncertainty(found(100, 30), everything, rustModel1);
    expect([percent, lower, upper]).toEqual([25, expect.closeTo(25, 6), expect.closeTo(25, 6)]);
  });

  test("all in doubt: the limits reach from none to all", () => {
    const { lower, upper } = rustUncertainty(found(100, 0.1), everything, rustModel1);
    expect(lower).toBe(0);
    expect(upper).toBe(100);
  });

  test("what is left out does not count", () => {
    const half = everything.map((_, at) => (at < 200 ? 255 : 0));
    expect(rustUncertainty(found(100, 30), half, rustModel1).percent).toBe(50);
    expect(() => rustUncertainty(found(100, 30), new Uint8Array(400), rustModel1)).toThrow(/^counted is "empty"/);
  });

  test("on rendered coupons nine of ten intervals or more hold the drawn area", () => {
    const sizeMm = { lengthMm: 60, widthMm: 40 };
    let [held, all] = [0, 0];
    for (const [at, finish] of (
      ["phosphate dry", "phosphate oiled", "phosphate waxed", "bare steel"] as const
    ).entries()) {
      const of = { seed: 300 + at, number: "5", finish, sizeMm, edgeBandMm: 5, widthPx: 500 };
      for (const [look, rustedPercent] of [0, 0.5, 3, 9, 30].entries()) {
        const drawn = renderCoupon({ ...of, look, rustedPercent, edgePercent: rustedPercent });
        const { image, pxPerMm } = rectify(drawn, drawn.cornersPx, sizeMm);
        const face = faceRectangle(image, sizeMm, 5);
        const counted = new Uint8Array(image.widthPx * image.heightPx).map((_, pixel) => {
          const [x, y] = [pixel % image.widthPx, Math.floor(pixel / image.widthPx)];
          return x >= face.left && x < face.right && y >= face.top && y < face.bottom ? 255 : 0;
        });
        const { lower, upper } = rustUncertainty(rustByModel(image, null, pxPerMm, rustModel1), counted, rustModel1);
        all++;
        if (lower <= drawn.truth.rustedPercent && drawn.truth.rustedPercent <= upper) held++;
      }
    }
    expect(held / all).toBeGreaterThanOrEqual(0.9);
  });
});
