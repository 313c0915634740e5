/**
 * How well a finish colour is read from photographs on the card: rendered coupons of exactly known colour on two dates, three lights,
 * two tilts, two JPEG qualities. Prints the tables of docs/finish-colour.md; some seconds a picture:
 *
 *   npx rolldown bench/finish-colour.ts --platform node --external sharp --file dist/finish-colour.mjs
 *   nice node dist/finish-colour.mjs
 */
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import sharp from "sharp";
import { lighterPatchesDeltaE } from "../src/core/rating/lighter-patches.ts";
import { deltaE2000 } from "../src/core/vision/colour-difference.ts";
import { type Lab, labFromSrgb } from "../src/core/vision/colour-lab.ts";
import type { Blotch } from "../src/core/vision/finish-colour.ts";
import { linearLight } from "../src/core/vision/lab-image.ts";
import { onScaleOf } from "../src/core/vision/same-colour-scale.ts";
import { srgbByteOf } from "../src/core/vision/srgb-byte.ts";
import { readColour } from "../src/server/photos/read-colour.ts";
import { type CardScene, renderCard } from "../tests/rendered-card.ts";

const size = { lengthMm: 100, widthMm: 60 };
const [width, height] = [400, 240];
type Rgb = readonly [number, number, number];
/** sRGB of both dates: charcoal phosphate, then paler and browner. */
const dates: readonly Rgb[] = [
  [66, 66, 66],
  [86, 80, 72],
];
const lights = {
  even: { alongX: 0, alongY: 0 },
  "warm, a third brighter on one side": { exposure: 0.6, alongX: 0.35, alongY: -0.2, tint: [1.15, 1, 0.8] },
  "cool and dim": { exposure: 0.5, alongX: -0.2, tint: [0.85, 1, 1.1] },
} as const satisfies Record<string, CardScene["light"]>;

/** A grained face; a patch of 12 mm, lighter by 18 levels, at 70, 20 mm. */
function coupon(rgb: Rgb, { patch, hole = false }: { patch: boolean; hole?: boolean }) {
  const colours = new Float32Array(width * height * 3);
  for (let at = 0; at < width * height; at++) {
    const [xMm, yMm] = [(at % width) / 4, Math.floor(at / width) / 4];
    const inPatch = patch && Math.hypot(xMm - 70, yMm - 20) < 6;
    const inHole = hole && Math.hypot(xMm - 14, yMm - 30) < 2.5;
    const grain = ((at * 7919) % 13) - 6;
    for (let channel = 0; channel < 3; channel++)
      colours[3 * at + channel] = inHole ? 190 : rgb[channel]! + grain + (inPatch ? 18 : 0);
  }
  return { piece: { sizeMm: size, width, height }, colours, thicknessMm: 3 };
}

/** As the card's scale shows it: paper of 92 % is taken for 83 %. */
function onCardScale(rgb: Rgb): Lab {
  const [red, green, blue] = rgb.map((level) => srgbByteOf((linearLight[level]! * 0.83) / 0.92));
  return labFromSrgb({ red: red!, green: green!, blue: blue! });
}

const folder = await mkdtemp(join(tmpdir(), "finish-colour-"));
async function reading(scene: Omit<CardScene, "card" | "widthPx">, quality: number) {
  const { rgb, widthPx, heightPx } = renderCard({ card: "medium", widthPx: 1400, fills: 0.6, ...scene });
  const photoPath = join(folder, "photo.jpg");
  await sharp(rgb, { raw: { width: widthPx, height: heightPx, channels: 3 } })
    .jpeg({ quality })
    .toFile(photoPath);
  const request = { photo: "", cornersPx: null, sizeMm: size, edgeBandMm: 5, thicknessMm: 3 };
  return readColour({ photoPath, request, printScale: 1, outDir: folder });
}

const cells = (row: readonly (string | number)[]) =>
  console.log(`| ${row.map((cell) => (typeof cell === "number" ? cell.toFixed(1) : cell)).join(" | ")} |`);
const trueChange = deltaE2000({ first: onCardScale(dates[0]!), second: onCardScale(dates[1]!) });
console.log(`True change: ΔE00 ${trueChange.toFixed(1)}\n`);
cells(["light", "tilt, °", "JPEG", "L* off", "a* off", "b* off", "spread of L*", "patch", "change read, ΔE00"]);
cells(["---", "---", "---", "---", "---", "---", "---", "---", "---"]);
for (const [name, light] of Object.entries(lights))
  for (const [tiltDeg, quality] of [
    [0, 92],
    [14, 60],
  ] as const) {
    const first = await reading({ seed: 3, tiltDeg, light, coupon: coupon(dates[0]!, { patch: true }) }, quality);
    // The second date in the first one's light would be too easy: it always lies in even light.
    const last = await reading({ seed: 4, light: lights.even, coupon: coupon(dates[1]!, { patch: true }) }, 92);
    if (!first.read || !last.read) {
      cells([name, String(tiltDeg), String(quality), first.read ? "second refused" : first.sentence]);
      continue;
    }
    const { lab, lightnessSd, blotches, patches } = first.numbers;
    const truth = onCardScale(dates[0]!);
    const second = onScaleOf({ lab: last.numbers.lab, patches: last.numbers.patches, other: patches });
    const found = blotches.filter(({ xMm, yMm, lighter }) => lighter && Math.hypot(xMm - 70, yMm - 20) < 3);
    const more = blotches.length - found.length;
    cells([
      ...[name, String(tiltDeg), String(quality)],
      ...(["lStar", "aStar", "bStar"] as const).map((part) => lab[part] - truth[part]),
      lightnessSd,
      `${found.length === 1 ? "found" : "missed"}${more > 0 ? `, ${more} false` : ""}`,
      deltaE2000({ first: lab, second }),
    ]);
  }
const patchesOf = (patches: readonly Blotch[]) =>
  `${patches.length} patches, the lighter ones move the mean by ΔE00 ${lighterPatchesDeltaE(patches, (size.lengthMm - 10) * (size.widthMm - 10)).toFixed(2)}`;
const even = { seed: 3, light: lights.even };
const odd = {
  "no patch": { ...even, coupon: coupon(dates[0]!, { patch: false }) },
  "a hole of 5 mm, paper seen through it": { ...even, coupon: coupon(dates[0]!, { patch: false, hole: true }) },
  ...Object.fromEntries(
    [0.03, 0.06, 0.1, 0.2, 0.3].map((glare) => [
      `a mirrored lamp, ${glare} of white`,
      { seed: 3, light: { ...lights.even, glare }, coupon: coupon(dates[0]!, { patch: false }) },
    ]),
  ),
};
console.log();
for (const [name, scene] of Object.entries(odd)) {
  const read = await reading(scene, 92);
  const said = read.read
    ? `L* off ${(read.numbers.lab.lStar - onCardScale(dates[0]!).lStar).toFixed(1)}, ${patchesOf(read.numbers.blotches)}`
    : `refused: ${read.sentence}`;
  console.log(`- ${name}: ${said}`);
}
await rm(folder, { recursive: true });
