/**
 * What a shop's strokes make of the rust model, on rendered coupons of known rust: strokes that only confirm, and strokes where it is wrong.
 *
 *   npx rolldown bench/taught-strokes.ts --platform node --external sharp --file dist/taught-strokes.mjs
 *   node dist/taught-strokes.mjs [--seed 1400]
 *
 * Four finishes, 2 to 30 % of rust in five kinds; dabs of a finger in the middle of rust and of clean steel, 1 mm wide and 3, which is broader than most spots.
 * Prints Markdown; docs/photo-measurement.md holds a run.
 */
import { parseArgs } from "node:util";
import { type SeededRandom, seededRandom } from "../src/core/numeric/random.ts";
import { adaptedModel } from "../src/core/vision/adapted-model.ts";
import { boxMean } from "../src/core/vision/box-mean.ts";
import type { Stroke } from "../src/core/vision/brush.ts";
import { marks } from "../src/core/vision/raster.ts";
import { rustByModel } from "../src/core/vision/rust-by-model.ts";
import { rustModel1 } from "../src/core/vision/rust-model-1.ts";
import { type Masked, recoloured } from "./rust-model/altered.ts";
import { renderedCoupons } from "./rust-model/pictures.ts";

const { values } = parseArgs({ options: { seed: { type: "string", default: "1400" } } });
const sizeMm = { lengthMm: 100, widthMm: 60 };
const warmGains = [1.25, 1, 0.75] as const;
const kinds: readonly (readonly [string, (picture: Masked) => Masked])[] = [
  ["as rendered", (picture) => picture],
  ["light bloom", (picture) => recoloured(picture, true, (l, a, b) => [0.5 * l + 20, 0.55 * a, 0.55 * b])],
  ["nearly black", (picture) => recoloured(picture, true, (l, a, b) => [0.4 * l, 0.3 * a, 0.3 * b])],
  ["faint", (picture) => recoloured(picture, true, (l, a, b) => [0.7 * l + 10, 0.25 * a, 0.25 * b])],
  ["as rendered, in warm light", inWarmLight],
];
type Way = { name: string; widthMm: number; eachKind: number; whereWrong: boolean };
const ways: readonly Way[] = [
  { name: "confirmed, 1 mm", widthMm: 1, eachKind: 1, whereWrong: false },
  { name: "confirmed, 3 mm", widthMm: 3, eachKind: 1, whereWrong: false },
  { name: "corrected, 1 mm, two of each", widthMm: 1, eachKind: 2, whereWrong: true },
  { name: "corrected, 3 mm, two of each", widthMm: 3, eachKind: 2, whereWrong: true },
];

function inWarmLight(picture: Masked): Masked {
  const rgb = picture.image.rgb.map((byte, at) => Math.min(255, byte * warmGains[at % 3]!));
  return { ...picture, image: { ...picture.image, rgb } };
}

/** A mm of steel round a place that is called steel; rust need only fill its own third of a mm. */
const round = { rust: { px: 3, least: 0.95 }, steel: { px: 8, most: 0.001 } } as const;

/** A place in mm of the kind asked for; where `found` is wrong about it, if there are enough of those. */
function place(picture: Masked, found: Uint8Array, isRust: boolean, whereWrong: boolean, random: SeededRandom) {
  const { widthPx, heightPx } = picture.image;
  const rusted = Float32Array.from(picture.rust, (mark) => (mark === 0 ? 0 : 1));
  const around = boxMean(rusted, widthPx, heightPx, isRust ? round.rust.px : round.steel.px);
  const fits = Array.from(around.keys()).filter((at) => {
    const [x, y] = [at % widthPx, Math.floor(at / widthPx)];
    const isInside = Math.min(x, y, widthPx - 1 - x, heightPx - 1 - y) >= 12;
    return isInside && (isRust ? around[at]! > round.rust.least : around[at]! < round.steel.most);
  });
  const wrong = fits.filter((at) => (found[at] === marks.rust) !== isRust);
  const from = whereWrong && wrong.length > 20 ? wrong : fits;
  const at = from[random.below(Math.max(1, from.length))];
  if (at === undefined) return null;
  const mm = (px: number, sides: number, sideMm: number) => ((px + 0.5) / sides) * sideMm;
  return [mm(at % widthPx, widthPx, sizeMm.lengthMm), mm(Math.floor(at / widthPx), heightPx, sizeMm.widthMm)] as const;
}

function strokesOn(picture: Masked, found: Uint8Array, way: Way, random: SeededRandom): Stroke[] {
  const each = Array.from({ length: way.eachKind });
  return (["rust", "not rust"] as const).flatMap((paint) =>
    each.flatMap(() => {
      const at = place(picture, found, paint === "rust", way.whereWrong, random);
      return at ? [{ paint, widthMm: way.widthMm, pointsMm: [at] }] : [];
    }),
  );
}

function judged(found: Uint8Array, truth: Uint8Array) {
  const count = (is: (at: number) => boolean) => Array.from(truth.keys()).filter(is).length;
  const isFound = (at: number) => found[at] === marks.rust;
  const isTrue = (at: number) => truth[at] !== 0;
  const percent = (pixels: number) => (100 * pixels) / truth.length;
  return {
    off: Math.abs(percent(count(isFound)) - percent(count(isTrue))),
    iou:
      count((at) => isFound(at) && isTrue(at)) /
      Math.max(
        1,
        count((at) => isFound(at) || isTrue(at)),
      ),
  };
}

const mean = (all: readonly number[]) => all.reduce((sum, one) => sum + one, 0) / all.length;
const pictures = (await renderedCoupons(Number(values.seed), [2, 8, 30])).filter(({ id }) => id.endsWith(" 1200"));
const random = seededRandom(5);
console.log("| rust | strokes | off, mean (points): before | after | worse by at most | IoU: before | after |");
console.log("|---|---|---|---|---|---|---|");
for (const [kind, change] of kinds)
  for (const way of ways) {
    const rows = pictures.map((drawn) => {
      const picture = change(drawn);
      const marked = (model: typeof rustModel1) => rustByModel(picture.image, null, picture.pxPerMm, model).marks;
      const found = marked(rustModel1);
      const strokes = strokesOn(picture, found, way, random);
      const taught = adaptedModel(rustModel1, [{ image: picture.image, sizeMm, strokes }], "taught");
      return { before: judged(found, picture.rust), after: judged(marked(taught), picture.rust) };
    });
    const of = (when: "before" | "after", what: "off" | "iou") => mean(rows.map((row) => row[when][what])).toFixed(2);
    const worse = Math.max(...rows.map(({ before, after }) => after.off - before.off));
    console.log(
      `| ${kind} | ${way.name} | ${of("before", "off")} | ${of("after", "off")} | ${Math.max(0, worse).toFixed(2)} | ${of("before", "iou")} | ${of("after", "iou")} |`,
    );
  }
