/**
 * What the rust model reads on rendered coupons that it was not learned on, by finish and by kind of rust, for docs/photo-measurement.md;
 * or, with --clean, on so many clean coupons of each finish, each a piece of its own.
 *
 *   npx rolldown bench/rendered-rust.ts --platform node --external sharp --file rendered-rust.mjs && node rendered-rust.mjs [--clean 42]
 */
import { parseArgs } from "node:util";
import { d610Grade } from "../src/core/rating/d610-grade.ts";
import { rustByModel } from "../src/core/vision/rust-by-model.ts";
import { rustModel1 } from "../src/core/vision/rust-model-1.ts";
import { rustUncertainty } from "../src/core/vision/rust-uncertainty.ts";
import { type Masked, recoloured } from "./rust-model/altered.ts";
import { type Picture, renderedCoupons } from "./rust-model/pictures.ts";

const kinds: readonly (readonly [string, (picture: Masked) => Masked])[] = [
  ["as rendered", (picture) => picture],
  // Half of the steel shows through: fresh, thin, and pale.
  ["light bloom", (picture) => recoloured(picture, true, (l, a, b) => [0.5 * l + 20, 0.55 * a, 0.55 * b])],
  ["dark brown", (picture) => recoloured(picture, true, (l, a, b) => [0.6 * l, 0.6 * a, 0.55 * b])],
  ["nearly black", (picture) => recoloured(picture, true, (l, a, b) => [0.4 * l, 0.3 * a, 0.3 * b])],
];
const surfaces = ["phosphate dry", "phosphate oiled", "phosphate waxed", "bare steel"] as const;

function read(picture: Picture, kind: (picture: Masked) => Masked) {
  const { image, counted, pxPerMm } = kind(picture);
  const found = rustByModel(image, null, pxPerMm, rustModel1);
  return { true: picture.percent, ...rustUncertainty(found, counted, rustModel1) };
}

const median = (values: readonly number[]) => [...values].sort((x, y) => x - y)[values.length >> 1] ?? Number.NaN;
const share = <One>(all: readonly One[], holds: (one: One) => boolean) =>
  `${((100 * all.filter(holds).length) / all.length).toFixed(0)} % of ${all.length}`;

/** Beyond every seed that something was learned or chosen on. */
const cleanFirstSeed = 20_000;

const { values: options } = parseArgs({ options: { clean: { type: "string" } } });
if (options.clean === undefined) await byKindOfRust();
else await cleanOnly(Number(options.clean));

async function byKindOfRust(): Promise<void> {
  const pictures = await renderedCoupons(900);
  console.log(
    "| finish | rust | off, median, below 10 % (points) | read / true, below 10 % | within one D610 grade | interval holds | clean reads |",
  );
  for (const surface of surfaces)
    for (const [name, kind] of kinds) {
      const rows = pictures.filter(({ id }) => id.startsWith(surface)).map((picture) => read(picture, kind));
      const small = rows.filter((row) => row.true > 0 && row.true < 10);
      const clean = rows.filter((row) => row.true === 0);
      console.log(
        `| ${surface} | ${name} | ${median(small.map((row) => Math.abs(row.percent - row.true))).toFixed(2)} | ${median(small.map((row) => row.percent / row.true)).toFixed(2)} | ${share(rows, (row) => Math.abs(d610Grade(row.percent) - d610Grade(row.true)) <= 1)} | ${share(rows, (row) => row.lower <= row.true && row.true <= row.upper)} | ${Math.max(...clean.map((row) => row.percent)).toFixed(3)} |`,
      );
    }
}

async function cleanOnly(ofEach: number): Promise<void> {
  console.log("| finish | clean coupons | read none | most read, % |\n|---|---|---|---|");
  const reads = new Map<string, number[]>(surfaces.map((surface) => [surface, []]));
  for (let seed = cleanFirstSeed; [...reads.values()].some((percents) => percents.length < ofEach); seed += 30)
    for (const picture of await renderedCoupons(seed, [0])) {
      const surface = surfaces.find((one) => picture.id.startsWith(one))!;
      reads.get(surface)!.push(read(picture, (same) => same).percent);
    }
  for (const [surface, percents] of reads) {
    const none = percents.filter((percent) => percent === 0).length;
    console.log(`| ${surface} | ${percents.length} | ${none} | ${Math.max(...percents).toFixed(3)} |`);
  }
}
