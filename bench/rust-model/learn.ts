/**
 * Learns the rust model and says how well it does on things it has not seen.
 *
 *   npx rolldown bench/rust-model/learn.ts --platform node --external sharp --file bench/rust-model/learn.mjs
 *   node bench/rust-model/learn.mjs FOLDER [--cv] [--write src/core/vision/rust-model-1.ts]
 *
 * FOLDER holds photographs, masks and manifest.json; only its part "train" is read. --cv leaves out one thing or place after the other,
 * learns on the rest and reports on what was left out, for each limit of the log odds. --parts FILE keeps the drawn pixels for the next run.
 */
import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { parseArgs } from "node:util";
import { deserialize, serialize } from "node:v8";
import { seededRandom } from "../../src/core/numeric/random.ts";
import { d610Grade } from "../../src/core/rating/d610-grade.ts";
import { boxMean } from "../../src/core/vision/box-mean.ts";
import { leastPixels } from "../../src/core/vision/rust-by-model.ts";
import { type RustModel, rustLogOdds } from "../../src/core/vision/rust-model.ts";
import { seededPlaces } from "../../src/core/vision/seeded-places.ts";
import { type Learning, learnNetwork, type Samples } from "./network.ts";
import { type Picture, photographs, renderedCoupons } from "./pictures.ts";
import { foldsOf, type Part, partsOf, together } from "./samples.ts";

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    cv: { type: "boolean" },
    write: { type: "string" },
    passes: { type: "string" },
    decay: { type: "string" },
    units: { type: "string" },
    networks: { type: "string" },
    parts: { type: "string" },
    each: { type: "boolean" },
  },
});
const learning: Learning = {
  units: (values.units ?? "16,8").split(",").map(Number) as [number, number],
  draws: 60_000,
  passes: Number(values.passes ?? 14),
  decay: Number(values.decay ?? 0.02),
  rate: 2e-3,
};
const limits = [0, 0.5, 0.75, 1, 1.5];

type Scored = {
  variant: string;
  id: string;
  real: boolean;
  truth: number;
  limit: number;
  percent: number;
  iou: number | null;
};

function scored(picture: Picture, odds: Float32Array): Scored[] {
  const { widthPx, heightPx } = picture.image;
  const smooth = boxMean(odds, widthPx, heightPx, 2);
  const rows: Scored[] = [];
  for (const limit of limits)
    for (const [variant, plane, seed] of [
      ["plain", odds, 0],
      ["seed +1.5", odds, 1.5],
      ["seed +2.5", odds, 2.5],
      ["smooth seed +1.5", smooth, 1.5],
    ] as const) {
      const mask = seededPlaces(plane, widthPx, { from: limit, seedFrom: limit + seed, leastPixels });
      let [pixels, found, both, rust] = [0, 0, 0, 0];
      for (let at = 0; at < plane.length; at++) {
        if (!picture.counted[at]) continue;
        pixels++;
        if (mask[at]) found++;
        if (picture.rust[at]) rust++;
        if (mask[at] && picture.rust[at]) both++;
      }
      rows.push({
        variant,
        id: picture.id,
        real: picture.real,
        truth: picture.percent,
        limit,
        percent: (100 * found) / pixels,
        iou: rust ? both / (found + rust - both) : null,
      });
    }
  return rows;
}

/** The limit of log odds at which as much is found as was outlined. */
function rightLimit(picture: Picture, odds: Float32Array): number {
  const counted = odds.filter((_, at) => picture.counted[at] !== 0).sort();
  return counted[Math.min(counted.length - 1, Math.round((1 - picture.percent / 100) * counted.length))]!;
}

function report(title: string, everything: readonly Scored[]): void {
  for (const variant of new Set(everything.map((one) => one.variant))) {
    const name = `${title} ${variant}`;
    const all = everything.filter((one) => one.variant === variant);
    for (const real of [true, false])
      for (const limit of limits) {
        const rows = all.filter((one) => one.limit === limit && one.real === real);
        if (rows.length === 0) continue;
        const errors = rows.map((one) => Math.abs(one.percent - one.truth)).sort((x, y) => x - y);
        const at = (share: number) => errors[Math.floor(share * (errors.length - 1))]!.toFixed(2);
        const mean = (list: number[]) =>
          list.length ? (list.reduce((x, y) => x + y, 0) / list.length).toFixed(3) : "-";
        const near = rows.filter((one) => Math.abs(d610Grade(one.percent) - d610Grade(one.truth)) <= 1).length;
        console.log(
          `${name} ${real ? "real" : "rendered"} limit ${limit}: IoU ${mean(rows.flatMap((one) => one.iou ?? []))} off ${at(0.5)} mean ${mean(errors)} at 90 % ${at(0.9)} grade ${((100 * near) / rows.length).toFixed(0)} clean ${mean(rows.filter((one) => one.iou === null).map((one) => one.percent))}`,
        );
      }
  }
}

const started = Date.now();
const random = seededRandom(20_261);
const folder = positionals[0];
if (!folder) throw new Error("usage: node learn.mjs FOLDER [--cv] [--write FILE]");
const real = await photographs(folder);
const kept = values.parts;
const parts: Part[] =
  kept && existsSync(kept)
    ? deserialize(readFileSync(kept))
    : [...real, ...(await renderedCoupons(500))].flatMap((picture) => partsOf(picture, random));
if (kept && !existsSync(kept))
  writeFileSync(
    kept,
    serialize(
      parts.map((q) => ({ ...q, inputs: q.inputs.slice(), isRust: q.isRust.slice(), weight: q.weight.slice() })),
    ),
  );
console.error(`samples ${Date.now() - started} ms, ${parts.reduce((n, part) => n + part.isRust.length, 0)} pixels`);
const named = (network: Omit<RustModel, "name" | "rustFromLogOdds" | "limitReach" | "heedsColourRule">): RustModel => ({
  name: "",
  rustFromLogOdds: 0,
  heedsColourRule: false,
  limitReach: { up: 0, down: 0 },
  ...network,
});

/** Networks learned from different starts, as one that gives the mean of their log odds: a single one leans by chance. */
function learnTogether(samples: Samples) {
  const each = Array.from({ length: Number(values.networks ?? 3) }, (_, at) => learnNetwork(samples, learning, at + 1));
  const [before, after] = [learning.units[0], (each.length - 1) * learning.units[0]];
  return {
    first: each.flatMap(({ first }) => first),
    second: each.flatMap(({ second }, at) =>
      second.map(([bias, ...weights]) => [
        bias!,
        ...new Array<number>(at * before).fill(0),
        ...weights,
        ...new Array<number>(after - at * before).fill(0),
      ]),
    ),
    last: [
      each.reduce((sum, { last }) => sum + last[0]! / each.length, 0),
      ...each.flatMap(({ last }) => last.slice(1).map((weight) => weight / each.length)),
    ],
  };
}

if (values.cv) {
  const folds = foldsOf(real, random);
  const rows: Scored[] = [];
  const rightLimits: number[] = [];
  for (const fold of folds) {
    const samples = together(parts.filter(({ group }) => !fold.includes(group)));
    const model = named(learnTogether(samples));
    for (const picture of real.filter(({ group }) => fold.includes(group))) {
      const odds = rustLogOdds(picture.image, picture.counted, picture.pxPerMm, model);
      rows.push(...scored(picture, odds));
      // Where all or nothing is rust, any limit far enough away is right.
      if (picture.percent > 0 && picture.percent < 100) rightLimits.push(rightLimit(picture, odds));
    }
    console.error(`left out ${fold.join(", ")}: ${Date.now() - started} ms`);
  }
  if (values.each)
    for (const row of rows.filter(({ limit, variant }) => limit === 0.75 && variant === "seed +1.5"))
      console.log(`  ${row.id} ${row.truth.toFixed(2)} ${row.percent.toFixed(2)} ${row.iou?.toFixed(3)}`);
  report("left out", rows);
  rightLimits.sort((x, y) => x - y);
  console.log(
    `limits with the outlined area, 5, 50 and 95 %: ${[0.05, 0.5, 0.95].map((share) => rightLimits[Math.round(share * (rightLimits.length - 1))]!.toFixed(2)).join(", ")}; all ${rightLimits.map((x) => x.toFixed(2)).join(" ")}`,
  );
}
if (values.write) {
  const network = learnTogether(together(parts));
  const fresh = await renderedCoupons(900);
  report(
    "final",
    [...real, ...fresh].flatMap((picture) =>
      scored(picture, rustLogOdds(picture.image, picture.counted, picture.pxPerMm, named(network))),
    ),
  );
  writeFileSync(values.write, JSON.stringify(network));
}
