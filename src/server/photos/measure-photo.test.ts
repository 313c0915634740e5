import { join } from "node:path";
import sharp, { type Sharp } from "sharp";
import { describe, expect, test } from "vitest";
import { inLight, paperPx, withPaper } from "../../../tests/lit-coupon.ts";
import { type CardScene, renderCard, rustyCoupon } from "../../../tests/rendered-card.ts";
import { renderCoupon } from "../../../tests/rendered-coupon.ts";
import { temporaryFolder } from "../../../tests/temporary-folder.ts";
import type { PhotoRefusal } from "../../api/photo.ts";
import { rustModel1 } from "../../core/vision/rust-model-1.ts";
import { correctMeasurement, type MeasuredPhoto, measurePhoto, readMask } from "./measure-photo.ts";
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
type Known = Parameters<typeof measurePhoto>[0];
const built = { printScale: 1, model: rustModel1 };

/** Measured as asked, on a card printed to scale; a refusal fails the test with its own sentence. */
async function rated(
  task: Omit<Parameters<typeof measurePhoto>[0], "printScale" | "model" | "first"> & { first?: Known["first"] },
): Promise<MeasuredPhoto> {
  const measured = await measurePhoto({ first: null, ...task, ...built });
  if ("refused" in measured) throw new Error(measured.sentence);
  return measured;
}

describe("a photograph from file to numbers", () => {
  test("a rendered coupon of 4 % reads near it; the three pictures fit each other", async () => {
    const { coupon, photoPath, request } = await rendered();
    const shares: number[] = [];
    const measured = await rated({
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
    const measured = await rated({
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
    const first = await rated({ photoPath, request, outDir: await temporaryFolder(), progress });
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

  test("where a photograph was taken is in none of the pictures made from it", async () => {
    const { photoPath, request } = await rendered();
    const located = join(await temporaryFolder(), "located.jpg");
    const place = { IFD3: { GPSLatitude: "51/1 30/1 0/1", GPSLongitude: "0/1 7/1 0/1" } };
    await sharp(photoPath).withExif(place).jpeg().toFile(located);
    expect((await sharp(located).metadata()).exif).toBeDefined();
    const made = await rated({ photoPath: located, request, outDir: await temporaryFolder(), progress });
    for (const path of [made.rectifiedPath, made.maskPath, made.overlayPath]) {
      const { exif, xmp, iptc } = await sharp(path).metadata();
      expect([exif, xmp, iptc]).toEqual([undefined, undefined, undefined]);
    }
  });

  test("a picture that is no mask is refused by name", async () => {
    const { photoPath } = await rendered();
    await expect(readMask(photoPath)).rejects.toThrow(/^mask is \d+; expected only 0, 128, 255/);
  });
});

describe("a photograph without the card in a lamp's light", { timeout: 60_000 }, () => {
  const lit = async (rustedPercent: number) => {
    const of = { seed: 6001, number: "12", finish: "phosphate dry", sizeMm, edgeBandMm: 5, look: 0 } as const;
    const drawn = withPaper(renderCoupon({ ...of, rustedPercent, edgePercent: rustedPercent, widthPx: 900 }));
    const photoPath = join(await temporaryFolder(), "lit.jpg");
    const raw = { width: drawn.widthPx, height: drawn.heightPx, channels: 3 } as const;
    await sharp(inLight(drawn, [1.12, 1, 0.7]).rgb, { raw })
      .jpeg({ quality: 88 })
      .toFile(photoPath);
    const corners = drawn.cornersPx.map(([x, y]) => [x, y]) as [P, P, P, P];
    return { photoPath, request: { cornersPx: corners, sizeMm, edgeBandMm: 5 }, paper: paperPx(drawn) };
  };

  test("paper that was pointed at takes the light out: read near the truth, and said", async () => {
    const { photoPath, request, paper } = await lit(8);
    const plain = await rated({ photoPath, request, outDir: await temporaryFolder(), progress });
    expect(plain.light).toMatchObject({ by: "nothing", warning: expect.stringMatching(/colour of its light/) });
    const asked = { ...request, neutralPx: paper };
    const white = await rated({ photoPath, request: asked, outDir: await temporaryFolder(), progress });
    expect(white.light).toMatchObject({ by: "white place" });
    expect(Math.abs(white.rustedPercent - 8)).toBeLessThan(0.5);
    const width = ({ rustPercentInterval: within }: MeasuredPhoto) => within!.high - within!.low;
    expect(width(white)).toBeLessThan(width(plain) / 5);
  });

  test("pointed at rust instead of paper it is refused in words, with the corners as they were", async () => {
    const { photoPath, request } = await lit(100);
    const [[x, y]] = request.cornersPx;
    const asked = { ...request, neutralPx: [x + 200, y + 150] as P };
    const task = { photoPath, request: asked, ...built, first: null, outDir: await temporaryFolder(), progress };
    const refused = await measurePhoto(task);
    expect(refused).toMatchObject({ refused: true, why: "white place", sentence: expect.stringMatching(/coloured/) });
    for (const [at, corner] of (refused as PhotoRefusal).cornersPx!.entries())
      for (const axis of [0, 1] as const) expect(corner[axis]).toBeCloseTo(request.cornersPx[at]![axis], 6);
  });
});

describe("a photograph with the measuring card", { timeout: 60_000 }, () => {
  const byCard = { cornersPx: null, sizeMm, edgeBandMm: 5, thicknessMm: 3 };
  const heldUpright = (picture: Sharp) => picture.rotate(270).withMetadata({ orientation: 6 });
  const inScans = (picture: Sharp) => picture.jpeg({ quality: 85, progressive: true });
  const photographed = async (change: Partial<CardScene>, kept = (picture: Sharp) => picture) => {
    const coupon = rustyCoupon("phosphate oiled", { rustedPercent: 4, edgePercent: 15 });
    const photo = renderCard({ seed: 2, card: "medium", widthPx: 900, fills: 0.68, coupon, ...change });
    const photoPath = join(await temporaryFolder(), "card.jpg");
    const raw = { width: photo.widthPx, height: photo.heightPx, channels: 3 } as const;
    await kept(sharp(photo.rgb, { raw }).jpeg({ quality: 85 })).toFile(photoPath);
    return photoPath;
  };

  test("needs no corners: the rust reads near the truth in a warm, slanting light", async () => {
    const photoPath = await photographed({ tiltDeg: 15, light: { alongX: 0.35, tint: [1, 0.93, 0.84] } });
    const measured = await rated({ photoPath, request: byCard, outDir: await temporaryFolder(), progress });
    expect(Math.abs(measured.rustedPercent - 4)).toBeLessThan(0.8);
    expect(measured.card).toMatchObject({ name: "medium", printScale: 1 });
    expect(measured.light).toEqual({ by: "card" });
    expect(measured.gate!.filter(({ passes }) => !passes)).toEqual([]);
    expect(measured.spots!.count).toBeGreaterThan(0);
    expect(measured).toMatchObject({ iso4628: 4, contactPercents: [] });
    expect(measured.rustPercentInterval!.low).toBeLessThan(4);
    expect(measured.rustPercentInterval!.high).toBeGreaterThan(4);
    expect(measured.gradeSpan!.worst).toBeLessThanOrEqual(measured.d610);
  });

  // Drawn at half its size, which is quicker; the card is looked for at half of 13 px per mm, rust at 8.
  const scene = { tiltDeg: 8, widthPx: 1300, fills: 0.68 };
  test.each<[string, (picture: Sharp) => Sharp]>([
    ["as it lies", (picture) => picture.resize(2600)],
    ["turned", (picture) => heldUpright(picture.resize(2600))],
    ["in scans", (picture) => inScans(picture.resize(2600))],
    ["in no JPEG", (picture) => picture.resize(2600).png({ compressionLevel: 1 })],
  ])("a card found in a smaller copy than rust wants: the coupon is read nearer, %s", async (_, kept) => {
    const photoPath = await photographed(scene, kept);
    const measured = await rated({ photoPath, request: byCard, outDir: await temporaryFolder(), progress });
    expect(measured.pxPerMm).toBeCloseTo(8, 6);
    expect(Math.abs(measured.rustedPercent - 4)).toBeLessThan(0.4);
    expect(measured.card!.couponMm.lengthMm).toBeCloseTo(100, 0);
  });

  test("beside the percentage stands what came since the face's first photograph", async () => {
    const clean = rustyCoupon("phosphate oiled", { rustedPercent: 0, edgePercent: 0 });
    const outDir = await temporaryFolder();
    const before = await rated({
      photoPath: await photographed({ coupon: clean }),
      request: byCard,
      outDir: await temporaryFolder(),
      progress,
    });
    const first = { measurement: "9d3c", rectifiedPath: before.rectifiedPath };
    const photoPath = await photographed({ tiltDeg: 8 });
    const measured = await rated({ photoPath, request: byCard, outDir, progress, first });
    expect(measured.rustSince).toMatchObject({ first: "9d3c", d610: 4 });
    // Coarser than the percentage itself: two pictures never lie on each other to the pixel.
    expect(Math.abs(measured.rustSince!.rustedPercent - 4)).toBeLessThan(1.5);
  });

  test("where the number reads across the width, its top points to the card's left", async () => {
    const photoPath = await photographed({});
    const across = { ...byCard, sizeMm: { lengthMm: 60, widthMm: 100 } };
    const measured = await rated({ photoPath, request: across, outDir: await temporaryFolder(), progress });
    const [[ax, ay], [bx, by]] = measured.cornersPx!;
    // From corner 1, at the card's bottom left, to corner 2 above it.
    expect(Math.abs(ax - bx)).toBeLessThan(3);
    expect(ay - by).toBeGreaterThan(200);
  });

  test.each<[string, Partial<CardScene>, object]>([
    ["no card", { hidden: [0, 1, 2, 3] }, { why: "no card" }],
    ["no coupon on it", { coupon: null }, { why: "no coupon", cornersPx: null }],
    ["out of focus", { blurPx: 4 }, { why: "gate", sentence: expect.stringMatching(/out of focus.*Tap the coupon/s) }],
  ])("%s: refused in words, not rated", async (_, change, refusal) => {
    const photoPath = await photographed(change);
    const outDir = await temporaryFolder();
    expect(await measurePhoto({ photoPath, request: byCard, ...built, first: null, outDir, progress })).toMatchObject({
      refused: true,
      ...refusal,
    });
  });

  test("a hidden place is neither rust nor face; a contact point is counted apart", async () => {
    const { photoPath, request } = await rendered();
    const plain = await rated({ photoPath, request, outDir: await temporaryFolder(), progress });
    const [left, right] = [5, 55];
    const hiddenMm: [number, number][][] = [
      [
        [left, 5],
        [right, 5],
        [right, 55],
        [left, 55],
      ],
    ];
    const contactsMm = [{ xMm: 22, yMm: 59, radiusMm: 4 }];
    const asked = { ...request, hiddenMm, contactsMm };
    const half = await rated({ photoPath, request: asked, outDir: await temporaryFolder(), progress });
    expect(half.assessedAreaMm2 / plain.assessedAreaMm2).toBeCloseTo(40 / 90, 2);
    expect(half.contactPercents).toHaveLength(1);
  });
});
