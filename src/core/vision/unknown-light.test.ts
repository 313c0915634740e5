import { describe, expect, test } from "vitest";
import { inLight, type Light } from "../../../tests/lit-coupon.ts";
import { renderCoupon } from "../../../tests/rendered-coupon.ts";
import { faceRectangle } from "./assessed-face.ts";
import { rectify } from "./rectify.ts";
import { unknownLightWarning } from "./unknown-light.ts";

const sizeMm = { lengthMm: 100, widthMm: 60 };
const lamp: Light = [1.12, 1, 0.7];
function warned(rustedPercent: number, light: Light, interval: { low: number; high: number }) {
  const of = { seed: 31, number: "9", finish: "phosphate dry", sizeMm, edgeBandMm: 5, look: 1, widthPx: 600 } as const;
  const coupon = renderCoupon({ ...of, rustedPercent, edgePercent: rustedPercent });
  const { image } = rectify(inLight(coupon, light), coupon.cornersPx, sizeMm);
  return unknownLightWarning(image, faceRectangle(image, sizeMm, 5), interval);
}
const wide = { low: 0, high: 60 };

describe("a light of which nothing tells the colour", () => {
  test.each<[number, Light, { low: number; high: number }, boolean]>([
    // rusted %  light      interval             warned
    [0, lamp, wide, true],
    [8, lamp, wide, true],
    // Sure of itself: the light does not matter.
    [0, lamp, { low: 0, high: 0.2 }, false],
    [8, lamp, { low: 7, high: 19 }, false],
    [8, lamp, { low: 7, high: 19.1 }, true],
    // Grey steel shows between the spots.
    [0, [1, 1, 1], wide, false],
    [40, [1, 1, 1], wide, false],
    // Rusted all over, nothing grey is left, whatever the light.
    [97, [1, 1, 1], { low: 80, high: 96 }, true],
  ])("%d %% rusted in light %j, read within %j: warned %s", (rusted, light, interval, expected) => {
    const warning = warned(rusted, light, interval);
    if (expected) expect(warning).toMatch(/no part of the face is grey.*Photograph it on the card/);
    else expect(warning).toBeNull();
  });
});
