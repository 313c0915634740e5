/** `check photos`: what the photo measurement finds, against pictures whose rust was outlined by hand. */
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { Command } from "commander";
import sharp from "sharp";
import * as z from "zod/mini";
import { InputError } from "../core/input-error.ts";
import { d610Grade } from "../core/rating/d610-grade.ts";
import { marks } from "../core/vision/raster.ts";
import { rustByModel } from "../core/vision/rust-by-model.ts";
import { rustModel1 } from "../core/vision/rust-model-1.ts";
import { decodePhoto } from "../server/photos/read-photo.ts";
import { CheckFailed, InputRefused } from "./exit.ts";
import {
  drawnAgain,
  fixedHueRule,
  type Interval,
  mean,
  pairedDifference,
  publishedBaselines,
  publishedElsewhere,
} from "./photo-baselines.ts";

const listedPicture = z.object({
  id: z.string(),
  photo: z.string(),
  mask: z.nullable(z.string()),
  roi: z.nullable(z.string()),
  set: z.string(),
  split: z.string(),
  scored: z.boolean(),
});
type ListedPicture = z.infer<typeof listedPicture>;

export type CheckedPicture = {
  id: string;
  set: string;
  split: string;
  percentByMask: number;
  percentMeasured: number;
  errorPoints: number;
  gradesApart: number;
  /** Of rust: shared by mask and measurement, over what either calls rust. Null where the mask is empty. */
  iou: number | null;
};

export function checkPhotosCommand(): Command {
  return new Command("photos")
    .description("measure pictures with known rust and compare")
    .argument("<folder>", "pictures, masks and manifest.json")
    .option("--split <name>", "only pictures of this split, such as test")
    .option("--json", "one JSON value on standard output")
    .addHelpText("after", "\nExample:\n  coatwright check photos rust-photos --split test")
    .action(async (folder: string, options: { split?: string; json?: boolean }) => {
      const listed = listedIn(folder).filter(
        (one) => one.scored && (options.split === undefined || one.split === options.split),
      );
      if (listed.length === 0)
        throw new InputRefused(
          `${folder} lists no scored picture${options.split ? ` of split "${options.split}"` : ""}`,
        );
      const pictures: CheckedPicture[] = [];
      const byFixedHue: CheckedPicture[] = [];
      const errors: { id: string; error: string }[] = [];
      for (const [at, one] of listed.entries()) {
        console.error(`${at + 1} of ${listed.length}: ${one.id}`);
        const outcome = await checkPicture(folder, one);
        if ("error" in outcome) errors.push(outcome);
        else {
          pictures.push(outcome.measured);
          byFixedHue.push(outcome.byFixedHue);
        }
      }
      const report = reportOf(pictures, byFixedHue);
      if (options.json) console.log(JSON.stringify({ pictures, ...report, errors }, null, 2));
      else console.log([...asText(pictures, report, errors), ...besideBaselines(report)].join("\n"));
      if (errors.length > 0) throw new CheckFailed();
    });
}

function listedIn(folder: string): ListedPicture[] {
  const path = join(folder, "manifest.json");
  if (!existsSync(path)) throw new InputRefused(`${path} is not there; expected a list of pictures with their masks`);
  try {
    return z.array(listedPicture).parse(JSON.parse(readFileSync(path, "utf8")));
  } catch (error) {
    throw new InputRefused(`${path} is not a list of pictures: ${error instanceof Error ? error.message : error}`);
  }
}

async function checkPicture(
  folder: string,
  listed: ListedPicture,
): Promise<{ measured: CheckedPicture; byFixedHue: CheckedPicture } | { id: string; error: string }> {
  try {
    if (listed.mask === null) throw new InputError("mask", null, "a mask for a scored picture");
    const photo = await decodePhoto(join(folder, listed.photo));
    const truth = await readWhite(join(folder, listed.mask), photo);
    const counted = listed.roi === null ? null : await readWhite(join(folder, listed.roi), photo);
    const { id, set, split } = listed;
    const scored = (found: Uint8Array): CheckedPicture => ({ id, set, split, ...compared(truth, found, counted) });
    const measured = scored(rustByModel(photo, counted, null, rustModel1).marks);
    return { measured, byFixedHue: scored(fixedHueRule(photo)) };
  } catch (error) {
    return { id: listed.id, error: error instanceof Error ? error.message : String(error) };
  }
}

async function readWhite(path: string, photo: { widthPx: number; heightPx: number }): Promise<Buffer> {
  const { data, info } = await sharp(path)
    .toColourspace("b-w")
    .extractChannel(0)
    .raw()
    .toBuffer({ resolveWithObject: true });
  if (info.width !== photo.widthPx || info.height !== photo.heightPx)
    throw new InputError(
      path,
      `${info.width} x ${info.height} px`,
      `the picture's ${photo.widthPx} x ${photo.heightPx} px`,
    );
  return data;
}

/** Compares pixel by pixel where `counted` is set; null counts the whole picture. */
export function compared(truth: Uint8Array, found: Uint8Array, counted: Uint8Array | null) {
  let [pixels, byMask, measured, both] = [0, 0, 0, 0];
  for (let at = 0; at < truth.length; at++) {
    if (counted && counted[at] === 0) continue;
    const isRust = truth[at] !== 0;
    const isFound = found[at] === marks.rust;
    pixels++;
    if (isRust) byMask++;
    if (isFound) measured++;
    if (isRust && isFound) both++;
  }
  if (pixels === 0) throw new InputError("roi", "empty", "at least one counted pixel");
  const percentByMask = (100 * byMask) / pixels;
  const percentMeasured = (100 * measured) / pixels;
  return {
    percentByMask,
    percentMeasured,
    errorPoints: Math.abs(percentMeasured - percentByMask),
    gradesApart: Math.abs(d610Grade(percentMeasured) - d610Grade(percentByMask)),
    iou: byMask === 0 ? null : both / (byMask + measured - both),
  };
}

export type Overall = {
  pictures: number;
  meanIou: number | null;
  medianErrorPoints: number | null;
  p90ErrorPoints: number | null;
  withinOneGradePercent: number | null;
  cleanMeasuredPercent: number | null;
};

export function overallOf(pictures: readonly CheckedPicture[]): Overall {
  const errors = pictures.map((one) => one.errorPoints).sort((a, b) => a - b);
  const near = pictures.filter((one) => one.gradesApart <= 1).length;
  return {
    pictures: pictures.length,
    meanIou: meanOrNull(pictures.flatMap((one) => (one.iou === null ? [] : [one.iou]))),
    medianErrorPoints: quantile(errors, 0.5),
    p90ErrorPoints: quantile(errors, 0.9),
    withinOneGradePercent: pictures.length === 0 ? null : (100 * near) / pictures.length,
    cleanMeasuredPercent: meanOrNull(pictures.flatMap((one) => (one.iou === null ? [one.percentMeasured] : []))),
  };
}

const meanOrNull = (values: readonly number[]) => (values.length === 0 ? null : mean(values));

type Report = ReturnType<typeof reportOf>;

/** All that is said beside the single pictures; published figures only where they belong to these pictures. */
function reportOf(pictures: readonly CheckedPicture[], byFixedHue: readonly CheckedPicture[]) {
  const errors = pictures.map((one) => one.errorPoints);
  const isOpenTest = pictures.length === publishedBaselines.pictures && pictures.every(({ split }) => split === "test");
  const clean = pictures.filter(({ iou }) => iou === null);
  return {
    overall: overallOf(pictures),
    /** 95 % over pictures drawn again. */
    intervals: {
      meanIou: drawnAgain(
        pictures.flatMap(({ iou }) => (iou === null ? [] : [iou])),
        mean,
      ),
      medianErrorPoints: drawnAgain(
        errors,
        (of) =>
          quantile(
            [...of].sort((a, b) => a - b),
            0.5,
          )!,
      ),
      withinOneGradePercent: drawnAgain(
        pictures.map(({ gradesApart }) => (gradesApart <= 1 ? 100 : 0)),
        mean,
      ),
    },
    /** Faces without rust, on which anything found is false. */
    clean: {
      pictures: clean.map(({ id }) => id),
      meanPercent: meanOrNull(clean.map(({ percentMeasured }) => percentMeasured)),
      mostPercent: clean.length === 0 ? null : Math.max(...clean.map(({ percentMeasured }) => percentMeasured)),
    },
    byFixedHue: overallOf(byFixedHue),
    lessFixedHue: pairedDifference(pictures, byFixedHue),
    publishedBaselines: isOpenTest ? publishedBaselines.rows : [],
    publishedElsewhere,
  };
}

/** Between the two neighbouring order statistics, in a straight line. */
function quantile(sorted: readonly number[], share: number): number | null {
  if (sorted.length === 0) return null;
  const at = share * (sorted.length - 1);
  const below = sorted[Math.floor(at)]!;
  return below + (sorted[Math.ceil(at)]! - below) * (at - Math.floor(at));
}

function asText(
  pictures: readonly CheckedPicture[],
  { overall, intervals, clean }: Report,
  errors: readonly { id: string; error: string }[],
): string[] {
  const row = (cells: readonly string[]) =>
    [cells[0]!.padEnd(20), ...cells.slice(1).map((cell) => cell.padStart(9))].join("");
  const lines = pictures.map((one) =>
    row([
      one.id,
      one.split,
      number(one.percentByMask, 2),
      number(one.percentMeasured, 2),
      number(one.errorPoints, 2),
      String(one.gradesApart),
      number(one.iou, 3),
    ]),
  );
  return [
    row(["picture", "split", "mask %", "found %", "off", "grades", "IoU"]),
    ...lines,
    ...errors.map((one) => `${one.id}: ${one.error}`),
    `overall: ${overall.pictures} pictures, mean IoU ${number(overall.meanIou, 3)}, area off by ${number(overall.medianErrorPoints, 2)} points in the median and ${number(overall.p90ErrorPoints, 1)} at 90 %, within one grade ${number(overall.withinOneGradePercent, 0)} %, on clean steel ${number(overall.cleanMeasuredPercent, 3)} %`,
    `95 % over pictures drawn again: mean IoU ${ends(intervals.meanIou, 3)}, median area error ${ends(intervals.medianErrorPoints, 2)} points, within one grade ${ends(intervals.withinOneGradePercent, 0)} %`,
    clean.pictures.length === 0
      ? "clean faces: none among these pictures"
      : `clean faces: ${clean.pictures.length}, read as rusted ${number(clean.meanPercent, 3)} % in the mean and ${number(clean.mostPercent, 3)} % at most (${clean.pictures.join(", ")})`,
  ];
}

const number = (value: number | null, digits: number) => (value === null ? "-" : value.toFixed(digits));

const ends = (of: Interval | null, digits: number) =>
  of === null ? "(too few pictures)" : `${number(of.lower, digits)} to ${number(of.upper, digits)}`;

/** The fixed rule on the same pictures, the difference pair by pair, and what was published: for these pictures, and for others. */
function besideBaselines(report: Report): string[] {
  const row = (method: string, of: Omit<Overall, "pictures">) =>
    [
      method.padEnd(44),
      number(of.meanIou, 3).padStart(7),
      number(of.medianErrorPoints, 2).padStart(8),
      number(of.p90ErrorPoints, 1).padStart(7),
      number(of.withinOneGradePercent, 0).padStart(7),
      number(of.cleanMeasuredPercent, 3).padStart(8),
    ].join("");
  const { lessFixedHue: less } = report;
  const difference = (of: Interval | null, digits: number) =>
    of === null ? ends(of, digits) : `${number(of.value, digits)} (${ends(of, digits)})`;
  return [
    "",
    `${"method".padEnd(44)}    IoU  off med  off 90  grade%   clean%`,
    row(rustModel1.name, report.overall),
    row("fixed hue and saturation, run here", report.byFixedHue),
    ...report.publishedBaselines.map((one) => row(`${one.method}, published`, one)),
    "",
    `Against the fixed rule on the same ${report.overall.pictures} pictures, mean difference with 95 % over pictures drawn again:`,
    `IoU ${difference(less.iou, 3)}, area error ${difference(less.errorPoints, 2)} points, within one grade ${difference(less.withinOneGradePercent, 0)} %.`,
    "An interval that holds 0 cannot tell the two apart. About twenty pictures tell differences of some 0.1 in IoU, not less.",
    "Of the other published methods no single pictures are known, so there is no interval of the difference to them.",
    "",
    "Published by others for other pictures, by other definitions; not comparable:",
    ...publishedElsewhere.map(
      ({ pictures, model, figure, readIn }) => `${model.padEnd(40)}${figure.padEnd(38)}${pictures}; ${readIn}`,
    ),
  ];
}
