/**
 * A tape test over the whole way, with the measuring card in both pictures: rendered coupons with a cut lie on the card, are
 * photographed before by one light and after by another, kept as JPEG files, and read as the server reads them: card, gate, one
 * light, rings as a finger sets them, class. Prints a row per cut for docs/tape-from-photo.md. Some 10 s of one core per pair.
 *
 *   npx rolldown bench/tape-on-card.ts --platform node --external sharp --file tape-on-card.mjs
 *   nice node tape-on-card.mjs --cut lattice2|x --from 1 --to 8
 */
import { mkdtempSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { parseArgs } from "node:util";
import sharp from "sharp";
import { seededRandom } from "../src/core/numeric/random.ts";
import { latticePhotoClass, xPhotoClass } from "../src/core/rating/tape-photo-class.ts";
import { homographyOf, mapped, type Point } from "../src/core/vision/homography.ts";
import { readTape } from "../src/server/photos/read-tape.ts";
import { renderCard } from "../tests/rendered-card.ts";
import { asSetByFinger, renderTape, type TapePlane, tapePlane } from "../tests/rendered-tape.ts";
import { cutPatterns, tapeScene } from "./tape-scenes.ts";

const { values } = parseArgs({
  options: {
    cut: { type: "string", default: "lattice2" },
    from: { type: "string", default: "1" },
    to: { type: "string", default: "8" },
  },
});
const cut = values.cut === "x" ? "x" : "lattice2";
const folder = mkdtempSync(join(tmpdir(), "tape-on-card-"));
const unitSquare: Point[] = [
  [0, 0],
  [1, 0],
  [1, 1],
  [0, 1],
];
/** Daylight, cloud, a warm lamp. */
const tints = [
  [0.97, 0.99, 1],
  [0.92, 0.97, 1],
  [1, 0.93, 0.78],
] as const;

/** A photograph as a file, and its rings. */
async function photographed(plane: TapePlane, which: "before" | "after", seed: number) {
  const random = seededRandom(seed * 2 + (which === "before" ? 0 : 1));
  const between = (from: number, to: number) => from + (to - from) * random.next();
  const { couponCornersPx, ...photo } = renderCard({
    ...{ seed, card: "small", widthPx: 3000, fills: between(0.42, 0.54) },
    ...{ tiltDeg: between(0, 22), tiltTowardsDeg: between(0, 360), turnDeg: between(-8, 8) },
    coupon: { piece: plane, colours: plane[which], thicknessMm: 1 },
    light: {
      ...{ tint: tints[Math.floor(between(0, 3))]!, exposure: between(0.75, 0.92) },
      ...{ alongX: between(-0.2, 0.2), alongY: between(-0.15, 0.15), shadow: 0.4 },
    },
    ...{ blurPx: between(0.7, 1.2), noise: 2 },
  });
  const toPicture = homographyOf(unitSquare, couponCornersPx!);
  const [a, b, c, d] = plane.corners.map((corner) => mapped(toPicture, corner));
  const path = join(folder, `${seed}-${which}.jpg`);
  await sharp(photo.rgb, { raw: { width: photo.widthPx, height: photo.heightPx, channels: 3 } })
    .jpeg({ quality: Math.round(between(70, 95)) })
    .toFile(path);
  const cornersPx = asSetByFinger([a!, b!, c!, d!], random, 8).map(([x, y]) => [x, y]) as [P, P, P, P];
  return { path, cornersPx };
}
type P = [number, number];

const rows: { right: boolean; either: boolean; offPoints: number; held: boolean }[] = [];
let refused = 0;
for (let seed = Number(values.from); seed <= Number(values.to); seed++) {
  const scene = { ...tapeScene(seed, cut === "x" ? "xAnywhere" : cut), tiltDeg: 0, uneven: 0 };
  const plane = tapePlane(scene);
  const [before, after] = [await photographed(plane, "before", seed), await photographed(plane, "after", seed)];
  const read = await readTape({
    ...{ beforePath: before.path, afterPath: after.path, printScale: 1, outDir: folder },
    request: {
      ...{
        before: { photo: "a".repeat(64), cornersPx: before.cornersPx },
        after: { photo: "b".repeat(64), cornersPx: after.cornersPx },
      },
      pattern: cutPatterns[cut],
    },
  });
  const { x, removedPercent } = renderTape({ ...scene, widthPx: 400 });
  const trueClass = (x ? xPhotoClass(x) : latticePhotoClass(removedPercent)).d3359;
  const drawn = `seed ${seed}, ${scene.primer} on ${scene.substrate}: ${trueClass} ${removedPercent.toFixed(2)} %`;
  if (!read.read) {
    refused++;
    console.log(`${drawn}, refused: ${read.sentence}`);
    continue;
  }
  const { tapeClass, otherClass, removedPercent: readPercent, span } = read.numbers;
  rows.push({
    right: tapeClass === trueClass,
    either: tapeClass === trueClass || otherClass === trueClass,
    offPoints: Math.abs(readPercent - removedPercent),
    held: span !== undefined && span.from <= removedPercent && removedPercent <= span.to,
  });
  console.log(`${drawn}, read ${tapeClass} ${readPercent.toFixed(2)} %`);
}
const off = rows.map(({ offPoints }) => offPoints).sort((one, other) => one - other);
const many = (what: "right" | "either" | "held") => rows.filter((row) => row[what]).length;
console.log(
  `| ${cut} on the card | ${rows.length + refused} | ${refused} | ${many("right")} | ${many("either")} | ${many("held")} | ${off[off.length >> 1]?.toFixed(2)} | ${off[Math.floor(0.9 * off.length)]?.toFixed(2)} |`,
);
