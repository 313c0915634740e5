/**
 * First of three steps of a trial: layers of a network learned on ordinary photographs, as features for rust. docs/photo-measurement.md
 * ("Features of a network learned on ordinary photographs") says what came of it. This step makes the cases; layers.py and heads.py follow.
 *
 *   npx rolldown bench/rust-model/ordinary-layers/cases.ts --platform node --external sharp --file bench/rust-model/ordinary-layers/cases.mjs
 *   OMP_NUM_THREADS=1 nice -n 19 node bench/rust-model/ordinary-layers/cases.mjs FOLDER OUT --start 1
 *
 * FOLDER holds photographs, masks and manifest.json; only its part "train" is read. OUT, one for each start, gets learn/ and judge/: index.jsonl
 * with a line per case, and N.bin with its planes in the order of `planesOf`; and the models left out, for the next run. About 6 GB and a
 * quarter of an hour under load.
 *
 * A head that is stacked on the present network must not learn by a detour: so the network whose log odds a head learns from has seen neither
 * the part of the photographs that the picture is in, nor the part that this head leaves out (28 networks for one start, 7 of them for judging).
 *
 * Source   our own
 * Status   a trial; nothing of it is in use
 */
import { appendFileSync, mkdirSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { seededRandom } from "../../../src/core/numeric/random.ts";
import { inRoom } from "../../../src/core/vision/pixel-loops.ts";
import { rustFeatures } from "../../../src/core/vision/rust-features.ts";
import type { RustModel } from "../../../src/core/vision/rust-model.ts";
import { logOddsOnUnknownSurface } from "../../../src/core/vision/unknown-surface.ts";
import { type Masked, otherLight, otherPaint, otherRust, windowOf } from "../altered.ts";
import { leftOutModels } from "../left-out.ts";
import { photographs } from "../pictures.ts";
import { type Case, unknownCases } from "../unknown-cases.ts";

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: { start: { type: "string", default: "1" } },
});
const [folder, out] = positionals;
if (!folder || !out) throw new Error("usage: node cases.mjs FOLDER OUT [--start N]");
const start = Number(values.start);
mkdirSync(out, { recursive: true });

const real = await photographs(folder);
const withoutOne = await leftOutModels(real, start, join(out, "without-one.json"));
const withoutTwo = await leftOutModels(real, start, join(out, "without-two.json"), (parts) =>
  parts.flatMap((one, at) => parts.slice(at + 1).map((other) => [...one, ...other])),
);
const parts = withoutOne.map(({ groups }) => groups);
/** The part of the photographs that a case is in; -1: rendered, in none. */
const partOf = ({ group }: Case) => parts.findIndex((groups) => groups.includes(group));

/** A model and the part that the head leaves out which is learned from its log odds, or judged with them. */
type Asked = { part: number; model: RustModel };

function askedToLearn(one: Case): Asked[] {
  const own = partOf(one);
  return parts.flatMap((groups, part) => {
    if (part === own) return [];
    if (own < 0) return { part, model: withoutOne[part]!.model };
    const other = withoutTwo.find((left) => left.groups.includes(one.group) && left.groups.includes(groups[0]!))!;
    return { part, model: other.model };
  });
}

function askedToJudge(one: Case): Asked[] {
  // Rendered faces of these seeds were learned by none.
  const part = Math.max(0, partOf(one));
  return [{ part, model: withoutOne[part]!.model }];
}

/** More pictures to learn from: other paint, other light, windows. */
async function* moreCases(seed: number): AsyncGenerator<Case> {
  const random = seededRandom(seed);
  for (const picture of real) {
    const made = (kind: string, masked: Masked): Case => ({ ...masked, kind, id: picture.id, group: picture.group });
    yield made("paint", otherLight(otherPaint(picture, random), random, 0.6));
    // Dropped by `isLearned`, drawn all the same: so the cases after them are those of the trial.
    yield made("second paint", otherLight(otherPaint(picture, random), random, 0.6));
    yield made("other rust", otherLight(otherRust(picture, random, 1.15), random, 0.6));
    yield made("light", otherLight(picture, random, 1));
    const rusty = windowOf(picture, random, "rust");
    if (rusty) yield made("all rust", rusty);
    const clean = windowOf(picture, random, "none");
    if (clean) yield made("clean window, paint", otherPaint(clean, random));
  }
}

async function* casesToLearn(): AsyncGenerator<Case> {
  yield* unknownCases(real, 101);
  yield* moreCases(201);
}

/** Of what is drawn by the dozen every third is learned from; it counts those seen before of its kind in `seen`. */
function isLearned({ kind }: Case, seen: Map<string, number>): boolean {
  if (kind === "second paint" || kind === "other rust") return false;
  const count = (seen.get(kind) ?? 0) + 1;
  seen.set(kind, count);
  return !/^(clean mill scale|rendered)/.test(kind) || count % 3 === 0;
}

/** All that heads are told of a case beside the layers, row by row: bytes, then 32-bit floats. */
function planesOf({ image, rust, counted }: Case, asked: readonly Asked[]) {
  return inRoom(() => {
    const features = rustFeatures(image, counted, null);
    const { byColour, lightness, a, b, cells, own, cellColumns, cellRows } = features;
    const bytes = [image.rgb, rust, counted, byColour].map((plane) => Buffer.from(plane));
    const floats = [lightness, a, b, cells].map((plane) => Buffer.from(plane.slice().buffer));
    const logOdds = asked.map(({ model }) =>
      inRoom(() => Buffer.from(logOddsOnUnknownSurface(features, counted, model).slice().buffer)),
    );
    return { planes: Buffer.concat([...bytes, ...floats, ...logOdds]), own: { ...own }, cellColumns, cellRows };
  });
}

function write(into: string, n: number, one: Case, asked: readonly Asked[]): void {
  const { kind, id, image } = one;
  const { widthPx, heightPx } = image;
  const { planes, ...features } = planesOf(one, asked);
  writeFileSync(join(into, `${n}.bin`), planes);
  const row = { n, start, kind, id, widthPx, heightPx, ...features, parts: asked.map(({ part }) => part) };
  appendFileSync(join(into, "index.jsonl"), `${JSON.stringify(row)}\n`);
}

function emptied(name: string): string {
  const path = join(out!, name);
  rmSync(path, { recursive: true, force: true });
  mkdirSync(path);
  return path;
}

const toJudge = emptied("judge");
let judged = 0;
for await (const one of unknownCases(real, 7)) write(toJudge, judged++, one, askedToJudge(one));

const toLearn = emptied("learn");
const seen = new Map<string, number>();
// The number is the seed by which layers.py and heads.py draw pixels, so those passed over are numbered, too.
let drawn = 0;
for await (const one of casesToLearn()) {
  const n = drawn++;
  if (isLearned(one, seen)) write(toLearn, n, one, askedToLearn(one));
}
