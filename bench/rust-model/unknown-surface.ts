/**
 * How pictures of unknown scale are read, on photographs left out of the learning and on clean faces, for docs/photo-measurement.md.
 *
 *   npx rolldown bench/rust-model/unknown-surface.ts --platform node --external sharp --file bench/rust-model/unknown-surface.mjs
 *   nice -n 10 node bench/rust-model/unknown-surface.mjs FOLDER --start 1 --seed 7 --models FILE
 *
 * FOLDER holds photographs, masks and manifest.json; only its part "train" is read. FILE keeps the models of this start for the next run. To try
 * another way of reading, change `src/core/vision/unknown-surface.ts`, bundle and run again.
 */
import { parseArgs } from "node:util";
import { d610Grade } from "../../src/core/rating/d610-grade.ts";
import { marks } from "../../src/core/vision/raster.ts";
import { rustByModel } from "../../src/core/vision/rust-by-model.ts";
import { leftOutModels } from "./left-out.ts";
import { photographs } from "./pictures.ts";
import { type Case, unknownCases } from "./unknown-cases.ts";

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    start: { type: "string", default: "1" },
    seed: { type: "string", default: "7" },
    models: { type: "string" },
  },
});
const folder = positionals[0];
if (!folder || !values.models)
  throw new Error("usage: node unknown-surface.mjs FOLDER --models FILE [--start N] [--seed N]");

type Row = { percent: number; truth: number; iou: number | null };

function scored({ rust, counted }: Case, found: Uint8Array): Row {
  let [pixels, outlined, marked, both] = [0, 0, 0, 0];
  for (let at = 0; at < found.length; at++) {
    if (counted[at] === 0) continue;
    const isMarked = found[at] === marks.rust;
    pixels++;
    if (rust[at] !== 0) outlined++;
    if (isMarked) marked++;
    if (isMarked && rust[at] !== 0) both++;
  }
  const iou = outlined === 0 ? null : both / (outlined + marked - both);
  return { percent: (100 * marked) / pixels, truth: (100 * outlined) / pixels, iou };
}

function told(kind: string, rows: readonly Row[]): string {
  const off = rows.map(({ percent, truth }) => Math.abs(percent - truth)).sort((x, y) => x - y);
  const at = (share: number) => off[Math.floor(share * (off.length - 1))]!.toFixed(1);
  const ious = rows.flatMap(({ iou }) => iou ?? []);
  const clean = rows.filter(({ iou }) => iou === null);
  const near = rows.filter(({ percent, truth }) => Math.abs(d610Grade(percent) - d610Grade(truth)) <= 1).length;
  const byArea = `IoU ${(ious.reduce((x, y) => x + y, 0) / ious.length).toFixed(3)}, off ${at(0.5)}, 90 % ${at(0.9)}, within one grade ${((100 * near) / rows.length).toFixed(0)} %`;
  const byNone = `none in ${clean.filter(({ percent }) => percent === 0).length} of ${clean.length}, most ${Math.max(...clean.map(({ percent }) => percent)).toFixed(2)} %`;
  return [`${kind}: ${rows.length}`, ...(ious.length > 0 ? [byArea] : []), ...(clean.length > 0 ? [byNone] : [])].join(
    "; ",
  );
}

const real = await photographs(folder);
const models = await leftOutModels(real, Number(values.start), values.models);
const rows = new Map<string, Row[]>();
for await (const one of unknownCases(real, Number(values.seed))) {
  // Rendered faces of these seeds were learned by none.
  const { model } = models.find(({ groups }) => groups.includes(one.group)) ?? models[0]!;
  const row = scored(one, rustByModel(one.image, one.counted, null, model).marks);
  rows.set(one.kind, [...(rows.get(one.kind) ?? []), row]);
}
for (const [kind, of] of rows) console.log(told(kind, of));
