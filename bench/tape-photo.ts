/**
 * How well a tape test is read from two photographs: rendered pairs of exactly known removal, both cut forms, two primers, two
 * substrates, tilt and uneven light, corners set by a finger. Prints the rows of docs/tape-from-photo.md; 24 seeds go once round
 * primers, substrates and classes. Some 4 s of one core per pair: run ranges apart, each prints its own rows.
 *
 *   npx rolldown bench/tape-photo.ts --platform node --file dist/tape-photo.mjs
 *   nice node dist/tape-photo.mjs --cut lattice1|lattice2|x|xAnywhere --seeds FROM TO [--each]
 */
import { latticeOtherClass, latticePhotoClass, xOtherClass, xPhotoClass } from "../src/core/rating/tape-photo-class.ts";
import { xCutClass } from "../src/core/rating/x-cut.ts";
import { type TapeReading, tapeReading } from "../src/core/vision/tape-reading.ts";
import type { TapeScene } from "../tests/rendered-tape.ts";
import { type BenchCut, cutPatterns, type TapePair, tapePair, tapeScene } from "./tape-scenes.ts";

type Row = {
  scene: TapeScene;
  trueClass: string;
  /** null: refused. */
  readClass: string | null;
  otherClass: string | null;
  truePercent: number;
  readPercent: number;
  /** Whether the span that is shown holds the truth. */
  held: boolean;
};

/** Where an X is drawn without gaps its class is what the rules make of the plane itself; elsewhere what was drawn. */
function trueClassOf(cut: BenchCut, { loss }: TapeScene, { removedPercent, x }: TapePair): string {
  if (cut === "xAnywhere") return xPhotoClass(x!).d3359;
  if ("percent" in loss) return latticePhotoClass(removedPercent).d3359;
  return `${xCutClass({ standard: "ASTM D3359", removal: loss.x, jagWidthMm: loss.jagMm })}`;
}

function classesOf({ removal }: TapeReading): { readClass: string; otherClass: string | null } {
  if (removal.form === "x-cut")
    return { readClass: xPhotoClass(removal).d3359, otherClass: xOtherClass(removal, removal.span) };
  const { removedPercent, span } = removal;
  return {
    readClass: latticePhotoClass(removedPercent).d3359,
    otherClass: latticeOtherClass(removedPercent, span),
  };
}

function rowOf(seed: number, cut: BenchCut): Row {
  const scene = tapeScene(seed, cut);
  const pair = tapePair(scene);
  const { before, after, removedPercent } = pair;
  const reading = tapeReading(before, after, scene.pattern);
  const known = { scene, trueClass: trueClassOf(cut, scene, pair), truePercent: removedPercent };
  if ("unreadable" in reading)
    return { ...known, readClass: null, otherClass: null, readPercent: Number.NaN, held: false };
  const { removedPercent: readPercent, span } = reading.removal;
  const held = span.from <= removedPercent && removedPercent <= span.to;
  return { ...known, ...classesOf(reading), readPercent, held };
}

function summary(label: string, rows: readonly Row[]): string {
  const read = rows.filter(({ readClass }) => readClass !== null);
  const right = read.filter(({ readClass, trueClass }) => readClass === trueClass).length;
  const either = read.filter(({ readClass, otherClass, trueClass }) => [readClass, otherClass].includes(trueClass));
  const off = read.map(({ readPercent, truePercent }) => Math.abs(readPercent - truePercent)).sort((a, b) => a - b);
  const at = (share: number) => off[Math.min(off.length - 1, Math.floor(share * off.length))]?.toFixed(2) ?? "";
  const percent = ((100 * right) / Math.max(1, read.length)).toFixed(0);
  return `| ${label} | ${rows.length} | ${rows.length - read.length} | ${right} (${percent} %) | ${either.length} | ${read.filter(({ held }) => held).length} | ${at(0.5)} | ${at(0.9)} |`;
}

function asked(name: string, at: number): string | undefined {
  const from = process.argv.indexOf(name);
  return from < 0 ? undefined : process.argv[from + at];
}

const cut = (Object.keys(cutPatterns) as BenchCut[]).find((one) => one === asked("--cut", 1)) ?? "lattice2";
const [from, to] = [Number(asked("--seeds", 1) ?? 1), Number(asked("--seeds", 2) ?? 24)];
const rows: Row[] = [];
for (let seed = from; seed <= to; seed++) {
  const row = rowOf(seed, cut);
  rows.push(row);
  if (process.argv.includes("--each") || row.readClass !== row.trueClass)
    console.log(
      `seed ${seed}, ${row.scene.primer} on ${row.scene.substrate}: ${row.trueClass} ${row.truePercent.toFixed(2)} %, read ${row.readClass ?? "refused"} ${row.readPercent.toFixed(2)} %, tilt ${row.scene.tiltDeg.toFixed(0)}°`,
    );
}
console.log(
  "| cut | pairs | refused | class right | right, or the second class said | span held the truth | points off, median | 90 % |",
);
console.log("|---|---|---|---|---|---|---|---|");
const kinds = [...new Set(rows.map(({ scene }) => `${scene.primer} on ${scene.substrate}`))];
for (const kind of kinds)
  console.log(
    summary(
      kind,
      rows.filter(({ scene }) => `${scene.primer} on ${scene.substrate}` === kind),
    ),
  );
console.log(summary(`${cut}, seeds ${from} to ${to}`, rows));
