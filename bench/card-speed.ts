/**
 * How long finding the measuring card and the coupon on it takes in a photograph of 12 megapixels, beside its decoding.
 *
 *   npx rolldown bench/card-speed.ts --platform node --external sharp --file dist/card-speed.mjs
 *   node dist/card-speed.mjs
 *
 * One rendered scene; each step thirty times after ten to warm up: median, least, and the processor's time, ms. The first photograph
 * of a fresh program takes longer, since nothing has been compiled yet: its time stands in the first line.
 */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import sharp from "sharp";
import { findCard } from "../src/core/vision/find-card.ts";
import { findCoupon } from "../src/core/vision/find-coupon.ts";
import { rectify } from "../src/core/vision/rectify.ts";
import { workingShrink } from "../src/core/vision/working-size.ts";
import { cardSight } from "../src/server/photos/photo-sight.ts";
import { openedPhoto } from "../src/server/photos/read-photo.ts";
import { seeCoupon } from "../src/server/photos/see-coupon.ts";
import { renderCard, rustyCoupon } from "../tests/rendered-card.ts";

const sizeMm = { lengthMm: 100, widthMm: 60 };
const folder = mkdtempSync(join(tmpdir(), "card-speed-"));
const path = join(folder, "card.jpg");
const drawn = renderCard({
  ...{
    seed: 3,
    card: "medium",
    widthPx: 4000,
    heightPx: 3000,
    tiltDeg: 12,
    tiltTowardsDeg: 40,
    turnDeg: 6,
    fills: 0.72,
  },
  coupon: { ...rustyCoupon("phosphate oiled", { rustedPercent: 4, edgePercent: 15 }), turnDeg: 1.5 },
  blurPx: 1.6,
});
await sharp(drawn.rgb, { raw: { width: drawn.widthPx, height: drawn.heightPx, channels: 3 } })
  .jpeg({ quality: 90 })
  .toFile(path);

const processorMs = () => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
};

async function timed(what: string, work: () => unknown): Promise<void> {
  for (let run = 0; run < 10; run++) await work();
  const took: number[] = [];
  const before = processorMs();
  for (let run = 0; run < 30; run++) {
    const started = performance.now();
    await work();
    took.push(performance.now() - started);
  }
  took.sort((a, b) => a - b);
  const cells = [took[15]!, took[0]!, (processorMs() - before) / 30].map((ms) => ms.toFixed(1));
  console.log(`| ${what} | ${cells.join(" | ")} |`);
}

async function decode() {
  const opened = await openedPhoto(path);
  return opened.decoded(workingShrink(opened, sizeMm, null));
}
const photo = await decode();
const request = { cornersPx: null, sizeMm, edgeBandMm: 5, thicknessMm: 3 };
const started = performance.now();
const seen = await seeCoupon({ photo, printScale: 1 }, request);
if ("refused" in seen) throw new Error(seen.sentence);
console.log(
  `decoded to ${photo.widthPx} x ${photo.heightPx} px; the first ${(performance.now() - started).toFixed(0)} ms\n`,
);
const card = findCard(photo, 1)!;
const coupon = findCoupon(photo, card, photo, { ...sizeMm, thicknessMm: 3 })!;
console.log("| ms | median | least | processor |\n|---|---|---|---|");
await timed("decode", decode);
await timed("card", () => findCard(photo, 1));
await timed("coupon", () => findCoupon(photo, card, photo, { ...sizeMm, thicknessMm: 3 }));
await timed("light and gate", () => cardSight(photo, card, coupon.cornersPx));
await timed("cut out straight", () => rectify(photo, coupon.cornersPx, sizeMm));
await timed("all but decoding", () => seeCoupon({ photo, printScale: 1 }, request));
rmSync(folder, { recursive: true });
