/**
 * How long a 12-megapixel photograph takes from file to rating, beside its decoding alone and beside the same steps in OpenCV.
 *
 *   npx rolldown bench/photo-speed.ts --platform node --external sharp --file photo-speed.mjs
 *   node photo-speed.mjs [--python /usr/bin/python3]
 *
 * All in one run, each the median of five after one to warm up. OpenCV comes from python3-opencv; without it that row is left out.
 */
import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { parseArgs } from "node:util";
import sharp from "sharp";
import { rectify } from "../src/core/vision/rectify.ts";
import { rustByModel } from "../src/core/vision/rust-by-model.ts";
import { rustModel1 } from "../src/core/vision/rust-model-1.ts";
import { renderLook } from "../src/server/demo/render-coupon.ts";
import { steelPiece } from "../src/server/demo/steel-piece.ts";
import { assessPhoto } from "../src/server/photos/measure-photo.ts";
import { decodePhoto } from "../src/server/photos/read-photo.ts";

const { values } = parseArgs({ options: { python: { type: "string" } } });
const sizeMm = { lengthMm: 100, widthMm: 60 };
const folder = mkdtempSync(join(tmpdir(), "photo-speed-"));
const photoPath = join(folder, "coupon.jpg");

const piece = steelPiece({ seed: 3, number: "12", finish: "phosphate oiled", sizeMm, edgeBandMm: 5 });
const drawn = renderLook(piece, 3, { look: 1, rustedPercent: 6, edgePercent: 12, widthPx: 4000 });
await sharp(drawn.rgb, { raw: { width: drawn.widthPx, height: drawn.heightPx, channels: 3 } })
  .jpeg({ quality: 92 })
  .toFile(photoPath);
const request = {
  cornersPx: drawn.cornersPx.map(([x, y]) => [x, y]) as [
    [number, number],
    [number, number],
    [number, number],
    [number, number],
  ],
  sizeMm,
  edgeBandMm: 5,
};

async function median(work: () => Promise<unknown> | unknown): Promise<number> {
  const took: number[] = [];
  for (let run = 0; run < 6; run++) {
    const started = performance.now();
    await work();
    if (run > 0) took.push(performance.now() - started);
  }
  return took.sort((a, b) => a - b)[2]!;
}

const decode = await median(() => decodePhoto(photoPath));
const whole = await median(() =>
  assessPhoto({ photoPath, request, printScale: 1, model: rustModel1, first: null, progress: () => {} }),
);
const photo = await decodePhoto(photoPath);
const { image, pxPerMm } = rectify(photo, drawn.cornersPx, sizeMm);
const model = await median(() => rustByModel(image, null, pxPerMm, rustModel1));
const assessed = await assessPhoto({
  photoPath,
  request,
  printScale: 1,
  model: rustModel1,
  first: null,
  progress: () => {},
});
if ("refused" in assessed) throw new Error(assessed.sentence);
const { numbers } = assessed;
console.log(
  `${drawn.widthPx} x ${drawn.heightPx} px, rectified ${image.widthPx} x ${image.heightPx} at ${pxPerMm.toFixed(1)} px per mm`,
);
console.log(`true ${drawn.truth.rustedPercent.toFixed(2)} %, measured ${numbers.rustedPercent.toFixed(2)} %`);
console.log(`decode upright in sRGB   ${decode.toFixed(0)} ms`);
console.log(`file to rating           ${whole.toFixed(0)} ms, ${(whole / decode).toFixed(2)} times decoding`);
console.log(`of which rust by model   ${model.toFixed(0)} ms`);

const layers = join(folder, "model.json");
writeFileSync(layers, JSON.stringify(rustModel1));
const python = spawnSync(values.python ?? "/usr/bin/python3", [
  "bench/photo-speed.py",
  photoPath,
  String(image.widthPx),
  String(image.heightPx),
  ...drawn.cornersPx.flat().map(String),
  layers,
]);
if (python.status === 0) {
  const steps: Record<string, number> = JSON.parse(python.stdout.toString());
  const total = Object.values(steps).reduce((sum, ms) => sum + ms, 0);
  console.log(`the same in OpenCV       ${total.toFixed(0)} ms; ours is ${(total / whole).toFixed(2)} times as fast`);
  console.log(
    Object.entries(steps)
      .map(([name, ms]) => `  ${name} ${ms.toFixed(0)} ms`)
      .join("\n"),
  );
} else console.log(`OpenCV left out: ${python.stderr.toString().trim().split("\n").at(-1)}`);
rmSync(folder, { recursive: true });
