/**
 * How long a 12-megapixel photograph takes from file to rating, with corners by hand and by the card, beside its decoding alone, upright
 * in sRGB, in the forms in which phones keep photographs; beside the same steps in OpenCV; and whether memory stays flat over many.
 *
 *   npx rolldown bench/photo-speed.ts --platform node --external sharp --file photo-speed.mjs
 *   GLIBC_TUNABLES=glibc.malloc.hugetlb=1 node photo-speed.mjs [--rounds 31] [--python /usr/bin/python3] [--batch 100]
 *
 * All in one process, in turns, after three rounds to warm up: wall time, and processor time of all threads, which other work on the machine
 * disturbs less. On Linux the setting takes memory in large pages; without it decoding whole may spend most of its time on getting memory. OpenCV comes from python3-opencv; without it that row is left out.
 */
import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { loadavg, tmpdir } from "node:os";
import { join } from "node:path";
import { parseArgs } from "node:util";
import sharp from "sharp";
import type { RgbImage } from "../src/core/vision/raster.ts";
import { rectify } from "../src/core/vision/rectify.ts";
import { rustByModel } from "../src/core/vision/rust-by-model.ts";
import { rustModel1 } from "../src/core/vision/rust-model-1.ts";
import { renderLook } from "../src/server/demo/render-coupon.ts";
import { steelPiece } from "../src/server/demo/steel-piece.ts";
import { assessPhoto } from "../src/server/photos/measure-photo.ts";
import { decodePhoto } from "../src/server/photos/read-photo.ts";
import { renderCard, rustyCoupon } from "../tests/rendered-card.ts";

const { values } = parseArgs({
  options: {
    rounds: { type: "string", default: "31" },
    python: { type: "string", default: "/usr/bin/python3" },
    batch: { type: "string", default: "0" },
  },
});
const sizeMm = { lengthMm: 100, widthMm: 60 };
const shares = { rustedPercent: 6, edgePercent: 12 };
const folder = mkdtempSync(join(tmpdir(), "photo-speed-"));

/**
 * As phones keep a photograph: as it is seen in sRGB, held upright (the pixels lie on their side and the EXIF says so), and in the wider
 * colours of a Display P3 profile. All are the same picture once they are upright in sRGB.
 */
const forms = ["plain", "turned", "wide colours"] as const;
type Form = (typeof forms)[number];

async function kept(name: string, form: Form, photo: RgbImage): Promise<string> {
  const path = join(folder, `${name} ${form}.jpg`);
  const picture = sharp(photo.rgb, { raw: { width: photo.widthPx, height: photo.heightPx, channels: 3 } });
  const asTaken =
    form === "turned"
      ? picture.rotate(270).withMetadata({ orientation: 6 })
      : form === "wide colours"
        ? picture.withIccProfile("p3")
        : picture;
  await asTaken.jpeg({ quality: 92 }).toFile(path);
  return path;
}

const piece = steelPiece({ seed: 3, number: "12", finish: "phosphate oiled", sizeMm, edgeBandMm: 5 });
const drawn = renderLook(piece, 3, { look: 1, ...shares, widthPx: 4000 });
const corners = drawn.cornersPx.map(([x, y]) => [x, y]) as [P, P, P, P];
type P = [number, number];
// The card over half of the picture's width: 15 px per mm, fewer than most phones give.
const onCard = renderCard({
  ...{
    seed: 1,
    card: "medium",
    widthPx: 4000,
    heightPx: 3000,
    tiltDeg: 12,
    tiltTowardsDeg: 40,
    turnDeg: 5,
    fills: 0.5,
  },
  ...{ coupon: rustyCoupon("phosphate oiled", shares), light: { alongX: 0.1, shadow: 0.3 }, blurPx: 1, noise: 2 },
});
const ways = {
  "by hand": { photo: drawn, cornersPx: corners },
  "by the card": { photo: onCard, cornersPx: null },
} as const;
type Way = keyof typeof ways;
const known = { printScale: 1, model: rustModel1, first: null, progress: () => {} };

async function assessed(way: Way, photoPath: string) {
  const request = { cornersPx: ways[way].cornersPx, sizeMm, edgeBandMm: 5, thicknessMm: 3 };
  const seen = await assessPhoto({ ...known, photoPath, request });
  if ("refused" in seen) throw new Error(seen.sentence);
  return seen.numbers;
}

type Took = { wallMs: number[]; processorMs: number[] };
const none = (): Took => ({ wallMs: [], processorMs: [] });
type Pair = { way: Way; form: Form; path: string; decoding: Took; rating: Took };
const pairs: Pair[] = [];
for (const way of Object.keys(ways) as Way[])
  for (const form of forms) {
    const path = await kept(way, form, ways[way].photo);
    pairs.push({ ...{ way, form, path }, decoding: none(), rating: none() });
  }
async function timed(took: Took | null, once: () => Promise<unknown>) {
  const [wall, processor] = [performance.now(), process.cpuUsage()];
  await once();
  const { user, system } = process.cpuUsage(processor);
  took?.wallMs.push(performance.now() - wall);
  took?.processorMs.push((user + system) / 1000);
}
const rounds = Number(values.rounds);
for (let round = -3; round < rounds; round++)
  for (const { way, path, decoding, rating } of pairs) {
    await timed(round < 0 ? null : decoding, () => decodePhoto(path));
    await timed(round < 0 ? null : rating, () => assessed(way, path));
  }

const best = (all: readonly number[]) => Math.min(...all);
const median = (all: readonly number[]) => [...all].sort((a, b) => a - b)[all.length >> 1]!;
for (const { way, form, path } of pairs) {
  const { rustedPercent } = await assessed(way, path);
  console.log(`${way}, ${form}: measured ${rustedPercent.toFixed(2)} % (drawn: 6 %)`);
}
console.log(`load ${loadavg()[0]!.toFixed(1)}, ${rounds} rounds in turns\n`);
console.log(
  "| ms, wall and processor, each best (median) | decoding whole | file to rating | times decoding, best (median) |",
);
console.log("|---|---|---|---|");
const both = (of: readonly number[], digits: number) => `${best(of).toFixed(digits)} (${median(of).toFixed(digits)})`;
for (const { way, form, decoding, rating } of pairs)
  for (const clock of ["wallMs", "processorMs"] as const) {
    const times = [best, median].map((of) => (of(rating[clock]) / of(decoding[clock])).toFixed(2));
    console.log(
      `| ${way}, ${form}, ${clock === "wallMs" ? "wall" : "processor"} | ${both(decoding[clock], 0)} | ${both(rating[clock], 0)} | ${times[0]} (${times[1]}) |`,
    );
  }

const handPath = pairs[0]!.path;
const photo = await decodePhoto(handPath);
const { image, pxPerMm } = rectify(photo, drawn.cornersPx, sizeMm);
const modelMs: number[] = [];
for (let round = 0; round < rounds; round++) {
  const started = performance.now();
  rustByModel(image, null, pxPerMm, rustModel1);
  modelMs.push(performance.now() - started);
}
console.log(`\nof which rust by model at ${image.widthPx} x ${image.heightPx} px: best ${best(modelMs).toFixed(0)} ms`);

const layers = join(folder, "model.json");
writeFileSync(layers, JSON.stringify(rustModel1));
const size = [String(image.widthPx), String(image.heightPx)];
const python = spawnSync(values.python, [
  "bench/photo-speed.py",
  handPath,
  ...size,
  ...drawn.cornersPx.flat().map(String),
  layers,
]);
if (python.status === 0) {
  const steps: Record<string, number> = JSON.parse(python.stdout.toString());
  const total = Object.values(steps).reduce((sum, ms) => sum + ms, 0);
  const ours = median(pairs[0]!.rating.wallMs);
  console.log(`the same in OpenCV, corners by hand, wall, median: ${total.toFixed(0)} ms; ours ${ours.toFixed(0)} ms`);
  for (const [name, ms] of Object.entries(steps)) console.log(`  ${name} ${ms.toFixed(0)} ms`);
} else {
  // A python that does not exist leaves no words of its own.
  const why = python.error?.message ?? python.stderr.toString().trim().split("\n").at(-1);
  console.log(`OpenCV left out: ${why}`);
}

const batch = Number(values.batch);
for (let at = 1; at <= batch; at++) {
  const { way, path } = pairs[at % pairs.length]!;
  await assessed(way, path);
  if (at % 20 === 0 || at === batch)
    console.log(`memory held after ${at} photographs: ${(process.memoryUsage.rss() / 1e6).toFixed(0)} MB`);
}
rmSync(folder, { recursive: true });
