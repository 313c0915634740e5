import sharp from "sharp";
import { describe, expect, test } from "vitest";
import { renderCoupon } from "../../../tests/rendered-coupon.ts";
import { faceRectangle, rustedShares } from "../../core/vision/assessed-face.ts";
import type { RgbImage } from "../../core/vision/raster.ts";
import { rectify } from "../../core/vision/rectify.ts";
import { rustByModel } from "../../core/vision/rust-by-model.ts";
import { rustModel1 } from "../../core/vision/rust-model-1.ts";
import { renderLook } from "./render-coupon.ts";
import { type SteelFinish, steelPiece } from "./steel-piece.ts";

const size = { lengthMm: 100, widthMm: 60 };
const finishes = ["phosphate dry", "phosphate oiled", "phosphate waxed", "bare steel"] as const;
const piece = (finish: SteelFinish, seed = 21) =>
  steelPiece({ seed, number: "7", finish, sizeMm: size, edgeBandMm: 5 });
const atLook = (look: number, rustedPercent: number, edgePercent: number) => ({
  look,
  rustedPercent,
  edgePercent,
  widthPx: 600,
});

/** Through JPEG, as the shop stores it. */
async function measured(rendered: ReturnType<typeof renderLook>) {
  const raw = { width: rendered.widthPx, height: rendered.heightPx, channels: 3 } as const;
  const jpeg = await sharp(rendered.rgb, { raw }).jpeg({ quality: 88 }).toBuffer();
  const photo: RgbImage = { ...rendered, rgb: new Uint8Array(await sharp(jpeg).raw().toBuffer()) };
  const { image, pxPerMm } = rectify(photo, rendered.cornersPx, size);
  return rustedShares(rustByModel(image, null, pxPerMm, rustModel1), faceRectangle(image, size, 5), size, 5);
}

describe("rendered coupons", () => {
  test("what is asked for is drawn: truth within one point of the surface", () => {
    const coupon = piece("phosphate dry");
    for (const percent of [0, 0.01, 2.5, 37, 100]) {
      const { truth } = renderLook(coupon, 21, atLook(0, percent, percent));
      expect(truth.rustedPercent).toBeCloseTo(percent, 2);
      expect(truth.edgePercent).toBeCloseTo(percent, 2);
    }
  });

  test.each(finishes)("%s without rust reads none, in every light it is rendered in", async (finish) => {
    const clean = piece(finish);
    for (let look = 0; look < 3; look++) {
      const shares = await measured(renderLook(clean, 21, atLook(look, 0, 0)));
      expect(shares).toMatchObject({ rustedPercent: 0, edgePercent: 0 });
    }
  });

  test("measured area follows the truth: half of all within 0.3 points below 10 %, all within a quarter of it", async () => {
    const errors: number[] = [];
    for (const [at, finish] of finishes.entries()) {
      const coupon = piece(finish, 30 + at);
      for (const [look, percent] of [0.1, 0.5, 1.5, 5, 9].entries()) {
        const { rustedPercent } = await measured(renderLook(coupon, 30 + at, atLook(look, percent, 2 * percent)));
        errors.push(Math.abs(rustedPercent - percent));
        expect(Math.abs(rustedPercent - percent)).toBeLessThan(0.25 * percent + 0.05);
      }
    }
    errors.sort((a, b) => a - b);
    expect(errors[errors.length / 2]).toBeLessThan(0.3);
  });

  test("rust never goes back: under one light, each look holds all the rust of the one before", () => {
    const coupon = piece("bare steel");
    const picture = (percent: number) => renderLook(coupon, 21, atLook(0, percent, percent)).rgb;
    const clean = picture(0);
    const redder = (rgb: Uint8Array, at: number) => rgb[at]! - rgb[at + 2]! - (clean[at]! - clean[at + 2]!);
    const looks = [1, 4, 12, 40].map((percent) => {
      const rgb = picture(percent);
      return new Set(Array.from({ length: 600 * 450 }, (_, at) => at).filter((at) => redder(rgb, at * 3) > 40));
    });
    for (const [at, later] of looks.slice(1).entries()) {
      const before = [...looks[at]!];
      expect(before.length).toBeGreaterThan(500);
      expect(before.filter((pixel) => later.has(pixel)).length / before.length).toBeGreaterThan(0.99);
    }
  });

  test("the edge rusts before the face", () => {
    const { faceOrder, edgeOrder } = piece("phosphate dry");
    for (const share of [0.01, 0.1, 0.5])
      expect(edgeOrder[Math.floor(share * edgeOrder.length)]!).toBeLessThan(
        faceOrder[Math.floor(share * faceOrder.length)]!,
      );
  });

  test("the same values give the same picture, another seed or look another", () => {
    const of = {
      seed: 4,
      number: "30",
      finish: "phosphate waxed",
      sizeMm: size,
      edgeBandMm: 5,
      ...atLook(2, 3, 9),
    } as const;
    const first = renderCoupon(of);
    const again = renderCoupon(of);
    expect(Buffer.compare(again.rgb, first.rgb)).toBe(0);
    expect(again.truth).toEqual(first.truth);
    expect(Buffer.compare(renderCoupon({ ...of, seed: 5 }).rgb, first.rgb)).not.toBe(0);
    expect(renderCoupon({ ...of, look: 3 }).cornersPx).not.toEqual(first.cornersPx);
  });

  test.each([
    ["number", { number: "A7" }, /^text is "A7"/],
    ["rustedPercent", { rustedPercent: 120 }, /^rustedPercent is 120/],
    ["edgeBandMm", { edgeBandMm: 30 }, /^edgeBandMm is 30/],
  ])("refuses a wrong %s", (_, wrong, message) => {
    const of = {
      seed: 4,
      number: "30",
      finish: "bare steel",
      sizeMm: size,
      edgeBandMm: 5,
      ...atLook(2, 3, 9),
    } as const;
    expect(() => renderCoupon({ ...of, ...wrong })).toThrow(message);
  });
});
