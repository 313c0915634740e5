import { describe, expect, test } from "vitest";
import { seededRandom } from "../numeric/random.ts";
import { marks, type RgbImage } from "./raster.ts";
import { marksOf, rustByModel } from "./rust-by-model.ts";
import { rustFeatures } from "./rust-features.ts";
import { logOddsOf } from "./rust-model.ts";
import { rustModel1 } from "./rust-model-1.ts";
import { placesOnUnknownSurface } from "./unknown-surface.ts";

const side = 64;
function painted(colourAt: (x: number, y: number) => readonly number[], grain = 7): RgbImage {
  const random = seededRandom(4);
  const rgb = new Uint8Array(side * side * 3);
  for (let at = 0; at < side * side; at++)
    rgb.set(
      colourAt(at % side, Math.floor(at / side)).map((value) => value + random.below(grain) - (grain >> 1)),
      at * 3,
    );
  return { widthPx: side, heightPx: side, rgb };
}
const percentOf = (found: Uint8Array) => (100 * found.filter((mark) => mark === marks.rust).length) / side ** 2;
const percent = (image: RgbImage) => percentOf(rustByModel(image, null, null, rustModel1).marks);
const byCouponLimits = (image: RgbImage) =>
  percentOf(marksOf(logOddsOf(rustFeatures(image, null, null), rustModel1), side, rustModel1));

/** Steel with a square that is rust by this share of its colour. */
const square = (share: number) =>
  painted((x, y) =>
    [60, 60, 61].map((steel, c) =>
      x >= 20 && x < 44 && y >= 20 && y < 44 ? steel + ([100, 68, 46][c]! - steel) * share : steel,
    ),
  );

describe("rust on a surface of which nothing is known", () => {
  test("a faint place of which nothing is quite sure is none, though a coupon's limits would count it", () => {
    expect(byCouponLimits(square(0.5))).toBeGreaterThan(10);
    expect(percent(square(0.5))).toBe(0);
  });

  test("a surer place counts, and reaches further than by a coupon's limits", () => {
    const image = square(0.6);
    expect(byCouponLimits(image)).toBeGreaterThan(10);
    expect(percent(image)).toBeGreaterThan(byCouponLimits(image));
    expect(percent(image)).toBeLessThan((100 * 27 ** 2) / side ** 2);
  });

  test("red-brown nearly all over is compared with grey, too, and more of it is found", () => {
    const image = painted((x, y) => {
      const by = 25 * Math.sin(Math.floor(x / 5) * 12.9 + Math.floor(y / 5) * 78.2);
      return [110 + by, 70 + 0.8 * by, 50 + 0.6 * by];
    }, 9);
    expect(byCouponLimits(image)).toBeLessThan(50);
    expect(percent(image)).toBeGreaterThan(80);
  });

  test.each([
    // clean surface                sRGB
    ["smooth orange paint", [205, 95, 30]],
    ["black", [22, 22, 23]],
    ["dark metal in warm light", [70, 64, 57]],
  ])("%s reads none", (_, colour) => expect(percent(painted(() => colour, 3))).toBe(0));

  test("a spot that begins beside the surface in question is none of it, however it spills over", () => {
    // Sure rust on the bench, columns 40 on, fades over the coupon's edge; another spot lies on the coupon itself.
    const isCoupon = (at: number) => at % side < 40;
    const logOdds = Float32Array.from({ length: side * side }, (_, at) => {
      const [x, y] = [at % side, Math.floor(at / side)];
      if (y > 40) return x > 5 && x < 15 ? 4 : -4;
      return x < 36 ? -4 : x < 40 ? 1 : 5;
    });
    const counted = Uint8Array.from(logOdds, (_, at) => (isCoupon(at) ? 255 : 0));
    const markedOnCoupon = (part: Uint8Array | null) =>
      placesOnUnknownSurface(logOdds, part, side, rustModel1, 9).filter(
        (mark, at) => isCoupon(at) && mark === marks.rust,
      ).length;
    const ownSpot = 9 * (side - 41);
    expect(markedOnCoupon(null)).toBe(ownSpot + 4 * 41);
    expect(markedOnCoupon(counted)).toBe(ownSpot);
  });
});
