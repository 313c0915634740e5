import { expect, test } from "vitest";
import { type CardScene, renderCard, rustyCoupon } from "../../../tests/rendered-card.ts";
import { usualFocalShare } from "../../core/vision/card-pose.ts";
import { seeCoupon } from "./see-coupon.ts";

const request = {
  cornersPx: null,
  sizeMm: { lengthMm: 100, widthMm: 60 },
  edgeBandMm: 5,
  thicknessMm: 3,
};

/** What is said of a coupon on a card of which the shop knows nothing but that it is printed at 100 %. */
async function said(scene: Partial<CardScene>): Promise<string> {
  const coupon = rustyCoupon("phosphate oiled", { rustedPercent: 4, edgePercent: 15 });
  const light = { alongX: 0.1, shadow: 0.3 };
  const picture = renderCard({ seed: 700, card: "medium", widthPx: 1400, fills: 0.5, coupon, light, ...scene });
  const photo = {
    ...picture,
    shrink: 1,
    focalPx: usualFocalShare * Math.hypot(picture.widthPx, picture.heightPx),
  } as const;
  const seen = await seeCoupon({ photo, printScale: 1 }, request);
  return "refused" in seen ? seen.sentence : "rated";
}
const held = { tiltDeg: 6, tiltTowardsDeg: 70, turnDeg: 4 };

test("a card fitted to the page is named though one side was found on a line nearer to the plan, and so is the shadow", async () => {
  const sentence = await said({ ...held, printScale: 0.97 });
  expect(sentence).toMatch(
    /Both sides are too long, as on a card printed 2\.\d to 3\.\d % too small \(“fit to page”\)/,
  );
  expect(sentence).toMatch(
    /ruler of 100 mm.*If it is not the print, look whether its corners were found beside a shadow/,
  );
});

test("a card printed larger than the shop knows is named, too", async () => {
  const sentence = await said({ ...held, printScale: 1.03 });
  expect(sentence).toMatch(/off alike, as if the card were printed 2\.\d % too large\. Measure its ruler/);
});

test("another size along one side says nothing of the print", async () => {
  const coupon = rustyCoupon("phosphate oiled", { rustedPercent: 4, edgePercent: 15 });
  const longer = { ...coupon, piece: { ...coupon.piece, sizeMm: { lengthMm: 103, widthMm: 60 } } };
  const sentence = await said({ ...held, coupon: longer });
  expect(sentence).toMatch(/beside a shadow, and set them by hand\.$/);
  expect(sentence).not.toMatch(/ruler/);
});
