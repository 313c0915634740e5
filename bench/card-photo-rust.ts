/**
 * How well rust is measured over the whole way: a photograph of a rusted coupon on the measuring card, as a file, to its percentage.
 *
 * Scenes: four finishes, clean to 90 % rusted, four kinds of rust, a coupon of its own for each; the medium card; 2,600 by 1,950 px (--width); tilt to 35
 * degrees any way, turn to 25, three lights, blur, noise, JPEG quality 50 to 95, a print up to 3 % off (known to the shop).
 *
 *   npx rolldown bench/card-photo-rust.ts --platform node --external sharp --file dist/card-photo-rust.mjs
 *   node dist/card-photo-rust.mjs [--scenes 160] [--seed 11] [--width 2600]
 *
 * Prints Markdown: error of the percentage of the face, grades apart, how often the interval holds, sizes, and what was refused.
 * docs/photo-measurement.md holds a run.
 */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { parseArgs } from "node:util";
import sharp from "sharp";
import { type SeededRandom, seededRandom } from "../src/core/numeric/random.ts";
import { d610Grade } from "../src/core/rating/d610-grade.ts";
import { wilsonInterval } from "../src/core/statistics/wilson-interval.ts";
import { rustModel1 } from "../src/core/vision/rust-model-1.ts";
import { rusted } from "../src/server/demo/render-coupon.ts";
import { type SteelFinish, steelPiece } from "../src/server/demo/steel-piece.ts";
import { assessPhoto } from "../src/server/photos/measure-photo.ts";
import { type CardScene, renderCard } from "../tests/rendered-card.ts";
import { recoloured } from "./rust-model/altered.ts";

const { values: options } = parseArgs({
  options: {
    scenes: { type: "string", default: "160" },
    seed: { type: "string", default: "11" },
    width: { type: "string", default: "2600" },
  },
});
const sizeMm = { lengthMm: 100, widthMm: 60 };
const edgeBandMm = 5;
const finishes: readonly SteelFinish[] = ["phosphate dry", "phosphate oiled", "phosphate waxed", "bare steel"];
type Recolour = (lightness: number, a: number, b: number) => readonly [number, number, number];
const kinds: Record<string, Recolour | null> = {
  "as rendered": null,
  "light bloom": (l, a, b) => [0.5 * l + 20, 0.55 * a, 0.55 * b],
  "dark brown": (l, a, b) => [0.6 * l, 0.6 * a, 0.55 * b],
  "nearly black": (l, a, b) => [0.4 * l, 0.3 * a, 0.3 * b],
};
const lights: CardScene["light"][] = [
  { alongX: 0.1, shadow: 0.3 },
  { alongX: 0.4, alongY: -0.3, tint: [1, 0.92, 0.82], shadow: 0.9 },
  { alongX: -0.3, alongY: 0.3, tint: [0.9, 0.96, 1], exposure: 0.5, shadow: 0.6 },
];
const between = (random: SeededRandom, low: number, high: number) => low + random.next() * (high - low);

/** A coupon of its own; `onset` tells where it rusts first, so what lies before the end is rust. */
function coupon(finish: SteelFinish, kind: keyof typeof kinds, percent: number, seed: number) {
  const piece = steelPiece({ seed, number: String(seed % 90), finish, sizeMm, edgeBandMm });
  const edgePercent = Math.min(100, 2 * percent);
  const { colours, truth } = rusted(piece, { rustedPercent: percent, edgePercent });
  const to = kinds[kind];
  if (!to) return { piece, colours, truth };
  // What was painted over is what differs clearly from the bare piece; run-off is fainter.
  const rust = Uint8Array.from({ length: piece.width * piece.height }, (_, at) => {
    const moved = [0, 1, 2].reduce((sum, c) => sum + Math.abs(colours[3 * at + c]! - piece.rgb[3 * at + c]!), 0);
    return moved > 25 ? 255 : 0;
  });
  const image = {
    widthPx: piece.width,
    heightPx: piece.height,
    rgb: Uint8Array.from(colours, (value) => Math.max(0, Math.min(255, Math.round(value)))),
  };
  const masked = { image, rust, counted: new Uint8Array(rust.length).fill(255), pxPerMm: null };
  return { piece, colours: Float32Array.from(recoloured(masked, true, to).image.rgb), truth };
}

type Row = { finish: SteelFinish; kind: string; truth: number } & (
  | { refused: string }
  | { read: number; low: number; high: number; sideOff: number }
);

async function scene(at: number, random: SeededRandom, path: string): Promise<Row> {
  const finish = finishes[at % 4]!;
  const kind = Object.keys(kinds)[(at >> 2) % 4]!;
  // An eighth has none; the rest from a hundredth of a percent to nine tenths, evenly over the decades.
  const percent = random.next() < 0.125 ? 0 : 0.01 * 9000 ** random.next();
  const { piece, colours, truth } = coupon(finish, kind, percent, 7000 + 100 * Number(options.seed) + at);
  const light = lights[random.below(3)]!;
  const printScale = between(random, 0.97, 1.03);
  const photo = renderCard({
    seed: at,
    card: "medium",
    widthPx: Number(options.width),
    printScale,
    tiltDeg: between(random, 0, 35),
    tiltTowardsDeg: between(random, 0, 360),
    turnDeg: between(random, -25, 25),
    fills: 0.5,
    coupon: { piece, colours, thicknessMm: 3, turnDeg: between(random, -5, 5) },
    // Bright steel beside a shadow of its own brightness shows no edge: it wants soft light.
    light: { ...light, ...(finish === "bare steel" ? { shadow: 0.15 } : {}) },
    blurPx: between(random, 0.5, 1.5),
    noise: between(random, 0.5, 3),
  });
  const raw = { width: photo.widthPx, height: photo.heightPx, channels: 3 } as const;
  await sharp(photo.rgb, { raw })
    .jpeg({ quality: 50 + random.below(46) })
    .toFile(path);
  const assessed = await assessPhoto({
    photoPath: path,
    request: { sizeMm, edgeBandMm, thicknessMm: 3, cornersPx: null },
    printScale,
    model: rustModel1,
    first: null,
    progress: () => {},
  });
  const base = { finish, kind, truth: truth.rustedPercent };
  if ("refused" in assessed) return { ...base, refused: assessed.why === "gate" ? assessed.sentence : assessed.why };
  const { numbers, seen } = assessed;
  const { couponMm } = seen.card!;
  const interval = numbers.rustPercentInterval!;
  return {
    ...base,
    read: numbers.rustedPercent,
    low: interval.low,
    high: interval.high,
    sideOff: 100 * Math.max(Math.abs(couponMm.lengthMm / 100 - 1), Math.abs(couponMm.widthMm / 60 - 1)),
  };
}

const folder = mkdtempSync(join(tmpdir(), "card-photo-rust-"));
const random = seededRandom(Number(options.seed));
const rows: Row[] = [];
for (let at = 0; at < Number(options.scenes); at++) {
  const row = await scene(at, random, join(folder, "photo.jpg"));
  rows.push(row);
  console.error(`${at + 1} ${JSON.stringify(row)}`);
}
rmSync(folder, { recursive: true });
report();

type Read = Extract<Row, { read: number }>;

function report(): void {
  const read = rows.filter((row): row is Read => "read" in row);
  console.log("| what | read | off, median, below 10 % (points) | 90 % | within one D610 grade | interval holds |");
  console.log("|---|---|---|---|---|---|");
  for (const kind of Object.keys(kinds))
    line(
      kind,
      read.filter((row) => row.kind === kind),
    );
  for (const finish of finishes)
    line(
      finish,
      read.filter((row) => row.finish === finish),
    );
  line("all", read);
  const clean = read.filter((row) => row.truth === 0);
  console.log(`\nClean: ${clean.length}, at most ${Math.max(0, ...clean.map((row) => row.read)).toFixed(3)} %.`);
  console.log(`Both sides within 1 %: ${shareOf(read, (row) => row.sideOff <= 1)}.`);
  for (const row of rows) if ("refused" in row) console.log(`Refused, ${row.finish}: ${row.refused}`);
}

function line(what: string, of: readonly Read[]): void {
  const offs = of.filter((row) => row.truth < 10).map((row) => Math.abs(row.read - row.truth));
  offs.sort((a, b) => a - b);
  const at = (share: number) => (offs[Math.floor(share * offs.length)] ?? Number.NaN).toFixed(2);
  const near = shareOf(of, (row) => Math.abs(d610Grade(row.read) - d610Grade(row.truth)) <= 1);
  const holds = shareOf(of, (row) => row.low <= row.truth && row.truth <= row.high);
  console.log(`| ${what} | ${of.length} | ${at(0.5)} | ${at(0.9)} | ${near} | ${holds} |`);
}

function shareOf(of: readonly Read[], holds: (row: Read) => boolean): string {
  if (of.length === 0) return "none";
  const successes = of.filter(holds).length;
  const { lower, upper } = wilsonInterval({ successes, trials: of.length, confidence: 0.95 });
  return `${successes} of ${of.length} (${(100 * lower).toFixed(0)} to ${(100 * upper).toFixed(0)} %)`;
}
