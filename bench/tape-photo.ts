/**
 * How well a tape test is read from two photographs: rendered pairs of exactly known removal, both cut forms, two primers, two
 * substrates, tilt and uneven light, corners set by a finger. Prints the tables of docs/tape-from-photo.md; some seconds a pair:
 *
 *   npx rolldown bench/tape-photo.ts --platform node --file /tmp/tape-photo.mjs
 *   nice node /tmp/tape-photo.mjs [pairs of each kind] [--each] [--only=X]
 */
import { seededRandom } from "../src/core/numeric/random.ts";
import { latticePhotoClass, xPhotoClass } from "../src/core/rating/tape-photo-class.ts";
import { xCutClass } from "../src/core/rating/x-cut.ts";
import type { CutPattern } from "../src/core/vision/tape-cuts.ts";
import { tapeReading } from "../src/core/vision/tape-reading.ts";
import { asSetByFinger, primers, renderTape, substrates, type TapeScene, type XLoss } from "../tests/rendered-tape.ts";

const pairs = Number(process.argv[2] ?? 20);
const verbose = process.argv.includes("--each");
const only = process.argv.find((one) => one.startsWith("--only="))?.slice(7) ?? "";
const names = <T extends object>(table: T) => Object.keys(table) as (keyof T)[];

type Row = { scene: TapeScene; trueClass: string; readClass: string; off: number; ms: number; jag: number };

function lossOf(random: ReturnType<typeof seededRandom>, at: number): number {
  // A fifth lose nothing, the rest evenly over the classes 4B to 0B.
  const ranges = [
    [0, 0],
    [0.8, 4.8],
    [5.2, 14.8],
    [15.2, 34.5],
    [35.5, 64.5],
    [65.5, 95],
  ] as const;
  const [from, to] = ranges[at % ranges.length]!;
  return from + (to - from) * random.next();
}

function xLossOf(random: ReturnType<typeof seededRandom>, at: number): { x: XLoss; jagMm: number } {
  const kinds = ["none", "trace", "jagged", "jagged", "mostOfX", "beyondX"] as const;
  const x = kinds[at % kinds.length]!;
  return { x, jagMm: at % kinds.length === 2 ? 0.7 + 0.7 * random.next() : 1.9 + 1.1 * random.next() };
}

function run(pattern: CutPattern, label: string): Row[] {
  const rows: Row[] = [];
  for (const primer of names(primers))
    for (const substrate of names(substrates))
      for (let at = 0; at < pairs; at++) {
        const seed = 1000 * rows.length + at + 7;
        const random = seededRandom(seed + 99);
        const loss = pattern.form === "cross-cut" ? { percent: lossOf(random, at) } : xLossOf(random, at);
        const scene: TapeScene = {
          ...{ seed, pattern, primer, substrate, loss, tiltDeg: 25 * random.next(), uneven: 0.6 * random.next() },
          widthPx: pattern.form === "cross-cut" ? 640 : 900,
        };
        const rendered = renderTape(scene);
        const before = { ...rendered.before, cornersPx: asSetByFinger(rendered.before.cornersPx, random, 8) };
        const after = { ...rendered.after, cornersPx: asSetByFinger(rendered.after.cornersPx, random, 8) };
        const start = performance.now();
        const reading = tapeReading(before, after, pattern);
        const ms = performance.now() - start;
        const trueClass =
          "percent" in loss
            ? latticePhotoClass(rendered.removedPercent).d3359
            : `${xCutClass({ standard: "ASTM D3359", removal: loss.x, jagWidthMm: loss.jagMm })}`;
        if ("unreadable" in reading) {
          rows.push({ scene, trueClass, readClass: "refused", off: Number.NaN, ms, jag: 0 });
          continue;
        }
        const { removal } = reading;
        const readClass =
          removal.form === "cross-cut" ? latticePhotoClass(removal.removedPercent).d3359 : xPhotoClass(removal).d3359;
        const jag = removal.form === "x-cut" ? removal.jagWidthMm : 0;
        rows.push({ scene, trueClass, readClass, off: removal.removedPercent - rendered.removedPercent, ms, jag });
        if (verbose && readClass !== trueClass)
          console.log(
            label,
            primer,
            substrate,
            JSON.stringify(loss),
            trueClass,
            readClass,
            removal.removedPercent.toFixed(2),
            rendered.removedPercent.toFixed(2),
            removal.form === "x-cut" ? JSON.stringify({ ...removal, flagPercents: 0, span: 0 }) : "",
            `tilt ${scene.tiltDeg.toFixed(0)} uneven ${scene.uneven.toFixed(2)}`,
          );
      }
  return rows;
}

const quantile = (values: number[], share: number) =>
  values.sort((a, b) => a - b)[Math.min(values.length - 1, Math.floor(share * values.length))]!;

function summary(label: string, rows: readonly Row[]): string {
  const read = rows.filter((row) => row.readClass !== "refused");
  const right = read.filter((row) => row.readClass === row.trueClass).length;
  const off = read.map((row) => Math.abs(row.off));
  return `| ${label} | ${rows.length} | ${rows.length - read.length} | ${((100 * right) / Math.max(1, read.length)).toFixed(1)} % | ${quantile([...off], 0.5).toFixed(2)} | ${quantile([...off], 0.9).toFixed(2)} | ${quantile(
    rows.map((row) => row.ms),
    0.5,
  ).toFixed(0)} |`;
}

console.log("| cut | pairs | refused | class right | points off, median | 90 % | ms |\n|---|---|---|---|---|---|---|");
const x: CutPattern = { form: "x-cut", sizeMm: { lengthMm: 37.8, widthMm: 13 } };
const all: Row[] = [];
for (const [label, pattern] of [
  ["lattice, 2 mm", { form: "cross-cut", cuts: 6, spacingMm: 2 }],
  ["lattice, 1 mm", { form: "cross-cut", cuts: 11, spacingMm: 1 }],
  ["X", x],
] as [string, CutPattern][]) {
  if (!label.startsWith(only)) continue;
  const rows = run(pattern, label);
  console.log(summary(label, rows));
  all.push(...rows);
}
for (const primer of names(primers))
  for (const substrate of names(substrates))
    console.log(
      summary(
        `${primer} on ${substrate}`,
        all.filter(({ scene }) => scene.primer === primer && scene.substrate === substrate),
      ),
    );
console.log(summary("all", all));
