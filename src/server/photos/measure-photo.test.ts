import { join } from "node:path";
import sharp from "sharp";
import { describe, expect, test } from "vitest";
import { renderCoupon } from "../../../tests/rendered-coupon.ts";
import { temporaryFolder } from "../../../tests/temporary-folder.ts";
import { correctMeasurement, measurePhoto, readMask } from "./measure-photo.ts";
import { decodePhoto } from "./read-photo.ts";

const sizeMm = { lengthMm: 100, widthMm: 60 };
const progress = () => {};

async function rendered() {
  const coupon = renderCoupon({
    seed: 5,
    number: "12",
    finish: "phosphate oiled",
    sizeMm,
    edgeBandMm: 5,
    rustedPercent: 4,
    edgePercent: 15,
    look: 3,
    widthPx: 900,
  });
  const photoPath = join(await temporaryFolder(), "coupon.jpg");
  const raw = { width: coupon.widthPx, height: coupon.heightPx, channels: 3 } as const;
  await sharp(coupon.rgb, { raw }).jpeg({ quality: 90 }).toFile(photoPath);
  const [a, b, c, d] = coupon.cornersPx.map(([x, y]) => [x, y] as [number, number]) as [P, P, P, P];
  return { coupon, photoPath, request: { cornersPx: [a, b, c, d] as [P, P, P, P], sizeMm, edgeBandMm: 5 } };
}
type P = [number, number];

describe("a photograph from file to numbers", () => {
  test("a rendered coupon of 4 % reads near it; the three pictures fit each other", async () => {
    const { coupon, photoPath, request } = await rendered();
    const shares: number[] = [];
    const measured = await measurePhoto({
      photoPath,
      request,
      outDir: await temporaryFolder(),
      progress: (share) => shares.push(share),
    });
    expect(Math.abs(measured.rustedPercent - coupon.truth.rustedPercent)).toBeLessThan(0.6);
    expect(measured).toMatchObject({ d610: 4, iso10289: 4, assessedAreaMm2: 90 * 50 });
    expect(shares.at(-1)).toBe(1);
    expect(shares).toEqual([...shares].sort((x, y) => x - y));
    const mask = await readMask(measured.maskPath);
    for (const path of [measured.rectifiedPath, measured.overlayPath])
      expect(await decodePhoto(path)).toMatchObject({ widthPx: mask.widthPx, heightPx: mask.heightPx });
  });

  test("a real coupon before the test reads none: no rust on clean mill scale", async () => {
    const measured = await measurePhoto({
      photoPath: "tests/pictures/coupons/1af-1604.jpg",
      request: {
        cornersPx: [
          [382, 364],
          [917, 379],
          [872, 1202],
          [335, 1182],
        ],
        sizeMm: { lengthMm: 100, widthMm: 150 },
        edgeBandMm: 5,
      },
      outDir: await temporaryFolder(),
      progress,
    });
    expect(measured).toMatchObject({ rustedPercent: 0, d610: 10, iso10289: 10, iso10289Continuous: 10 });
  });

  test("painting all of it rust, then none of it, reads 100 and 0 at the same scale and method", async () => {
    const { photoPath, request } = await rendered();
    const first = await measurePhoto({ photoPath, request, outDir: await temporaryFolder(), progress });
    const correct = async (paint: "rust" | "not rust") =>
      correctMeasurement({
        ...first,
        request,
        strokes: [{ paint, widthMm: 200, pointsMm: [[50, 30]] }],
        outDir: await temporaryFolder(),
        progress,
      });
    expect(await correct("rust")).toMatchObject({ rustedPercent: 100, edgePercent: 100, d610: 0 });
    const none = await correct("not rust");
    expect(none).toMatchObject({ rustedPercent: 0, edgePercent: 0, pxPerMm: first.pxPerMm, method: first.method });
    expect(none.rectifiedPath).toBe(first.rectifiedPath);
  });

  test("a picture that is no mask is refused by name", async () => {
    const { photoPath } = await rendered();
    await expect(readMask(photoPath)).rejects.toThrow(/^mask is \d+; expected only 0, 128, 255/);
  });
});
