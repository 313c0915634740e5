/**
 * What is read on rendered coupons, corners by hand and no card, in warm and cold light: with nothing that tells the light, and with a white
 * place pointed at; and how often the warning stands beside a reading. For docs/photo-measurement.md.
 *
 *   npx rolldown bench/unknown-light.ts --platform node --external sharp --file dist/unknown-light.mjs && node dist/unknown-light.mjs [--seed 6000]
 *
 * Four finishes, two sizes of picture, six shares of rust, one photograph each in every light. A sheet of paper lies beside the coupon.
 */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { parseArgs } from "node:util";
import sharp from "sharp";
import { d610Grade } from "../src/core/rating/d610-grade.ts";
import { castChromaOf } from "../src/core/vision/card-light.ts";
import { rustModel1 } from "../src/core/vision/rust-model-1.ts";
import { renderLook } from "../src/server/demo/render-coupon.ts";
import { type SteelFinish, steelPiece } from "../src/server/demo/steel-piece.ts";
import { assessPhoto } from "../src/server/photos/measure-photo.ts";
import { inLight, type Light, paperPx, withPaper } from "../tests/lit-coupon.ts";

const { values: options } = parseArgs({ options: { seed: { type: "string", default: "6000" } } });
const sizeMm = { lengthMm: 100, widthMm: 60 };
const finishes: readonly SteelFinish[] = ["phosphate dry", "phosphate oiled", "phosphate waxed", "bare steel"];
const cast = (strength: number): Light => [1 + 0.4 * strength, 1, 1 - strength];
const lights: readonly (readonly [string, Light])[] = [
  ["neutral", [1, 1, 1]],
  ["a little warm", cast(0.1)],
  ["warm", cast(0.2)],
  ["warmer", cast(0.3)],
  ["lamp", cast(0.4)],
  ["reddish lamp", [1.3, 1, 0.55]],
  ["a little cold", cast(-0.1)],
  ["cold", cast(-0.2)],
  ["colder", cast(-0.35)],
];

const folder = mkdtempSync(join(tmpdir(), "unknown-light-"));
type Row = { true: number; read: number; holds: boolean; warned: boolean; refused: boolean };
const rows = new Map<string, { plain: Row[]; white: Row[] }>();

async function read(photoPath: string, truth: number, cornersPx: [P, P, P, P], white: P | null): Promise<Row> {
  const request = { cornersPx, sizeMm, edgeBandMm: 5, ...(white ? { neutralPx: white } : {}) };
  const seen = await assessPhoto({ photoPath, request, printScale: 1, model: rustModel1, first: null, progress() {} });
  if ("refused" in seen) return { true: truth, read: Number.NaN, holds: true, warned: false, refused: true };
  const { rustedPercent, rustPercentInterval: within } = seen.numbers;
  const { light } = seen.seen;
  const holds = within!.low <= truth && truth <= within!.high;
  return {
    true: truth,
    read: rustedPercent,
    holds,
    warned: light.by === "nothing" && light.warning !== null,
    refused: false,
  };
}
type P = [number, number];

for (const [size, widthPx] of [900, 1500].entries())
  for (const [at, finish] of finishes.entries()) {
    const seed = Number(options.seed) + 10 * size + at;
    const piece = steelPiece({ seed, number: "12", finish, sizeMm, edgeBandMm: 5 });
    for (const [look, rustedPercent] of [0, 0.3, 2, 8, 40, 95].entries()) {
      const edgePercent = Math.min(100, 2 * rustedPercent);
      const drawn = withPaper(renderLook(piece, seed, { look, rustedPercent, edgePercent, widthPx }));
      const [a, b, c, d] = drawn.cornersPx.map(([x, y]): P => [x, y]) as [P, P, P, P];
      for (const [name, light] of lights) {
        const photoPath = join(folder, "coupon.jpg");
        const raw = { width: drawn.widthPx, height: drawn.heightPx, channels: 3 } as const;
        await sharp(inLight(drawn, light).rgb, { raw }).jpeg({ quality: 88 }).toFile(photoPath);
        const of = rows.get(name) ?? { plain: [], white: [] };
        rows.set(name, of);
        of.plain.push(await read(photoPath, drawn.truth.rustedPercent, [a, b, c, d], null));
        of.white.push(await read(photoPath, drawn.truth.rustedPercent, [a, b, c, d], paperPx(drawn)));
      }
    }
  }
rmSync(folder, { recursive: true });

const isOff = (row: Row) =>
  Math.abs(d610Grade(row.read) - d610Grade(row.true)) > 1 || Math.abs(row.read - row.true) > 5;
const count = (all: readonly Row[], holds: (row: Row) => boolean) => all.filter(holds).length;
const most = (all: readonly Row[], of: (row: Row) => number) =>
  Math.max(0, ...all.filter(({ refused }) => !refused).map(of)).toFixed(1);
const told = (all: readonly Row[]) => {
  const rated = all.filter(({ refused }) => !refused);
  const clean = rated.filter((row) => row.true === 0);
  return [
    count(rated, isOff),
    most(clean, (row) => row.read),
    most(rated, (row) => Math.abs(row.read - row.true)),
    count(rated, ({ holds }) => !holds),
  ];
};
console.log(
  "| light | C*ab | n | off | clean reads at most | most off (points) | interval fails | warned | off, not warned | warned, not off | with white: refused | off | clean reads at most | most off | interval fails |",
);
console.log(`|${"---|".repeat(15)}`);
for (const [name, light] of lights) {
  const { plain, white } = rows.get(name)!;
  const brightest = Math.max(...light);
  const chroma = castChromaOf([light[0] / brightest, light[1] / brightest, light[2] / brightest]);
  const warned = [
    count(plain, (row) => row.warned),
    count(plain, (row) => isOff(row) && !row.warned),
    count(plain, (row) => !isOff(row) && row.warned),
  ];
  const refused = count(white, (row) => row.refused);
  console.log(
    `| ${[name, chroma.toFixed(0), plain.length, ...told(plain), ...warned, refused, ...told(white)].join(" | ")} |`,
  );
}
