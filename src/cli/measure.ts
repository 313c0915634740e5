/** `measure`: photographs, four corners and a size to rusted percent and grades. */
import { existsSync, mkdirSync } from "node:fs";
import { join, parse } from "node:path";
import { Command, InvalidArgumentError, Option } from "commander";
import { type CouponSurface, couponSurfaces, type MeasurementRequest, type PhotoRefusal } from "../api/photo.ts";
import { InputError } from "../core/input-error.ts";
import { cardRulerPrintedMm } from "../core/vision/measuring-card.ts";
import { gateValueText } from "../core/vision/photo-gate.ts";
import { leastPixels } from "../core/vision/rust-by-model.ts";
import { rustModel1 } from "../core/vision/rust-model-1.ts";
import { assessPhoto, measurePhoto } from "../server/photos/measure-photo.ts";
import { refusedSurface } from "../server/photos/refused-surface.ts";
import { CheckFailed, InputRefused } from "./exit.ts";

/** A rectangle that is not judged, mm from the coupon's top left. */
type Hidden = { xMm: number; yMm: number; alongMm: number; acrossMm: number };
type Contact = NonNullable<MeasurementRequest["contactsMm"]>[number];

type Options = {
  corners?: NonNullable<MeasurementRequest["cornersPx"]>;
  white?: NonNullable<MeasurementRequest["neutralPx"]>;
  size: MeasurementRequest["sizeMm"];
  edgeBand: number;
  thickness?: number;
  cardRuler: number;
  surface?: CouponSurface;
  hide: Hidden[];
  contact: Contact[];
  out?: string;
  json?: boolean;
};

export function measureCommand(): Command {
  return new Command("measure")
    .description("rusted percent and grades from a photograph")
    .argument("<photos...>", "JPEG, PNG or WebP; several of one size are measured one after the other")
    .addOption(
      new Option(
        "--corners <x,y,...>",
        "the coupon's four corners in px of the upright picture, clockwise from its top left; without them, by the measuring card",
      ).argParser(cornersFrom),
    )
    .addOption(
      new Option(
        "--white <x,y>",
        "something white or grey in the upright picture, px: it tells the colour of the light where no card is in sight",
      ).argParser(placeFrom),
    )
    .addOption(
      new Option("--size <LENGTHxWIDTH>", "in mm; the length lies along corner 1 to 2")
        .argParser(sizeFrom)
        .makeOptionMandatory(),
    )
    .addOption(
      new Option("--edge-band <mm>", "left out of the face and counted apart").argParser(numberFrom).default(5),
    )
    .addOption(new Option("--thickness <mm>", "how high the coupon's top lies above the card").argParser(numberFrom))
    .addOption(
      new Option("--card-ruler <mm>", "what the card's printed ruler of 100 mm measures")
        .argParser(numberFrom)
        .default(cardRulerPrintedMm),
    )
    .addOption(
      new Option(
        "--surface <how>",
        "how the coupon was when it was photographed; only a dry and wiped one is rated (left out: nobody was asked)",
      ).choices(couponSurfaces),
    )
    .addOption(
      new Option(
        "--hide <x,y,w,h>",
        "a place that is not judged (hole, stamp, wire, label): mm from the coupon's top left, along and across; may be repeated",
      )
        .argParser(hiddenFrom)
        .default([], "none"),
    )
    .addOption(
      new Option("--contact <x,y,r>", "where it hung or touched: rust within r mm is told apart; may be repeated")
        .argParser(contactFrom)
        .default([], "none"),
    )
    .option("--out <folder>", "write the rectified picture, the mask and the overlay there")
    .option("--json", "one JSON value on standard output; a photograph that is refused is in it, with its checks")
    .addHelpText(
      "after",
      "\nExamples:\n  coatwright measure coupon-14.jpg --corners 310,220,2890,240,2870,1540,300,1510 --size 100x50 --out measured\n  coatwright measure coupon-14.jpg --size 100x50 --surface 'dry and wiped' --hide 45,0,10,8 --contact 50,4,6\n  coatwright measure day-28/*.jpg --size 100x50 --json > day-28.json",
    )
    .action(measure);
}

async function measure(photoPaths: string[], options: Options): Promise<void> {
  requireOnCoupon(options);
  const [only] = photoPaths;
  if (only !== undefined && photoPaths.length === 1) {
    const measured = await measureOne(only, options, options.out);
    if (options.json) console.log(JSON.stringify(measured, null, 2));
    if ("refused" in measured) throw new InputRefused(refusedText(measured));
    if (!options.json) console.log(asText(measured).join("\n"));
    return;
  }
  await measureAll(photoPaths, options);
}

/** One after the other; a refused one is said and the rest goes on. Ctrl-C ends after the photograph at hand and keeps what is measured. */
async function measureAll(photoPaths: readonly string[], options: Options): Promise<void> {
  const all: (Measured | Refused)[] = [];
  const refused: string[] = [];
  let stopped = false;
  const stop = () => {
    stopped = true;
  };
  process.once("SIGINT", stop);
  for (const [at, photoPath] of photoPaths.entries()) {
    if (stopped) break;
    console.error(`${at + 1} of ${photoPaths.length}: ${photoPath}`);
    try {
      const measured = await measureOne(photoPath, options, options.out && join(options.out, parse(photoPath).name));
      if (options.json) all.push(measured);
      if ("refused" in measured) {
        refused.push(photoPath);
        console.error(refusedText(measured));
      } else if (!options.json) console.log([photoPath, ...asText(measured), ""].join("\n"));
    } catch (error) {
      if (!(error instanceof InputRefused || error instanceof InputError)) throw error;
      refused.push(photoPath);
      console.error(error.message);
    }
  }
  process.off("SIGINT", stop);
  if (options.json) console.log(JSON.stringify(all, null, 2));
  if (stopped) console.error("Stopped: the photographs after this one were not measured.");
  if (refused.length > 0) console.error(`${refused.length} not rated: ${refused.join(", ")}`);
  if (stopped || refused.length > 0) throw new CheckFailed();
}

type Answer = Awaited<ReturnType<typeof measureOne>>;
type Refused = Extract<Answer, { refused: true }>;
type Measured = Exclude<Answer, Refused>;

async function measureOne(photoPath: string, options: Options, outDir: string | undefined) {
  if (!existsSync(photoPath)) throw new InputRefused(`${photoPath} is not there; expected a photograph`);
  const request = {
    cornersPx: options.corners ?? null,
    ...(options.white ? { neutralPx: options.white } : {}),
    sizeMm: options.size,
    edgeBandMm: options.edgeBand,
    ...(options.thickness === undefined ? {} : { thicknessMm: options.thickness }),
    ...(options.surface === undefined ? {} : { surface: options.surface }),
    ...(options.hide.length === 0 ? {} : { hiddenMm: options.hide.map(rectangleOf) }),
    ...(options.contact.length === 0 ? {} : { contactsMm: options.contact }),
  };
  const surface = refusedSurface(options.surface);
  if (surface) return { photo: photoPath, ...request, ...surface };
  const printScale = options.cardRuler / cardRulerPrintedMm;
  const known = { printScale, model: rustModel1, first: null, progress: () => {} };
  if (outDir) mkdirSync(outDir, { recursive: true });
  const measured = outDir
    ? await measurePhoto({ photoPath, request, ...known, outDir })
    : await assessOnly({ photoPath, request, ...known });
  return { photo: photoPath, ...request, ...measured };
}

function rectangleOf({ xMm, yMm, alongMm, acrossMm }: Hidden): [number, number][] {
  const [right, lower] = [xMm + alongMm, yMm + acrossMm];
  return [
    [xMm, yMm],
    [right, yMm],
    [right, lower],
    [xMm, lower],
  ];
}

/** A place beside the coupon would be left out without a word; px taken for mm are the usual reason. */
function requireOnCoupon({ hide, contact, size }: Options): void {
  const { lengthMm, widthMm } = size;
  const expected = `a place on the coupon of ${lengthMm} x ${widthMm} mm, in mm`;
  for (const { xMm, yMm, alongMm, acrossMm } of hide)
    if (xMm >= lengthMm || yMm >= widthMm || xMm + alongMm <= 0 || yMm + acrossMm <= 0)
      throw new InputError("--hide", [xMm, yMm, alongMm, acrossMm].join(), expected);
  for (const { xMm, yMm, radiusMm } of contact)
    if (xMm - radiusMm > lengthMm || yMm - radiusMm > widthMm || xMm + radiusMm < 0 || yMm + radiusMm < 0)
      throw new InputError("--contact", [xMm, yMm, radiusMm].join(), expected);
}

/** Why it is not rated, and every check of the gate with its value and limit; what fails says what to do. */
function refusedText({ photo, sentence, checks }: { photo: string } & PhotoRefusal): string {
  const rows = checks.map((check) => [
    check.what,
    gateValueText(check),
    `at ${check.bound} ${check.limit} ${check.unit}`,
    check.passes ? "passed" : `not passed: ${check.advice}`,
  ]);
  const table = rows.length === 0 ? [] : [["check", "measured", "limit", "result"], ...rows];
  const widths = [0, 1, 2].map((column) => Math.max(...table.map((row) => row[column]!.length)));
  const lines = table.map((row) => `  ${row.map((cell, at) => cell.padEnd(widths[at] ?? 0)).join("  ")}`);
  return [`${photo} is not rated. ${sentence}`, ...lines].join("\n");
}

function asText(measured: Measured): string[] {
  const { rustPercentInterval: within, gradeSpan: span, d610Letter: letter } = measured;
  const edge = measured.edgePercent === null ? "" : `, edge band ${shown(measured.edgePercent)} %`;
  const { count = 0, largest = [], byClass = [] } = measured.spots ?? {};
  const sizes = byClass.map(({ fromMm, count: ofSize }, at) => {
    const belowMm = byClass[at + 1]?.fromMm;
    const size = belowMm === undefined ? `${fromMm} mm and more` : `${fromMm} to ${belowMm} mm`;
    return `${ofSize} of ${size}`;
  });
  const { light } = measured;
  const limitPercent = (100 * leastPixels) / measured.pxPerMm ** 2 / measured.assessedAreaMm2;
  return [
    `Rusted: face ${shown(measured.rustedPercent)} % of ${measured.assessedAreaMm2.toFixed(0)} mm²${edge}`,
    ...(measured.rustedPercent === 0
      ? [`None found; a single spot below ${limitPercent.toFixed(3)} % of the face would not be seen`]
      : []),
    ...(within && span
      ? [
          `${within.confidencePercent} % sure: between ${shown(within.low)} and ${shown(within.high)} %, ASTM D610 from ${span.worst} to ${span.best}`,
        ]
      : []),
    `ASTM D610 scale: ${measured.d610}${letter ? `-${letter}` : ""}   ISO 10289 table: ${measured.iso10289} (formula ${measured.iso10289Continuous.toFixed(1)})   ISO 4628-3 scale: Ri ${measured.iso4628}`,
    ...(largest[0]
      ? [`Rust spots: ${count}, the largest ${largest[0].diameterMm.toFixed(1)} mm across; ${sizes.join(", ")}`]
      : []),
    ...(measured.hiddenMm ? [`Left out: ${measured.hiddenMm.length} by --hide`] : []),
    ...(measured.contactsMm ?? []).map(({ radiusMm }, at) => {
      const percent = measured.contactPercents?.[at] ?? null;
      const rusted = percent === null ? "all round it is left out" : `${shown(percent)} % rusted within ${radiusMm} mm`;
      return `Contact point ${at + 1}: ${rusted}`;
    }),
    ...(light?.by === "nothing" && light.warning ? [light.warning] : []),
    ...(light?.by === "white place"
      ? [`Light balanced by the white place; it read ${light.castChroma.toFixed(0)} C*ab off grey`]
      : []),
    `At ${measured.pxPerMm.toFixed(1)} px per mm, by: ${measured.method}`,
    ...("overlayPath" in measured ? [`Look at what was counted: ${measured.overlayPath}`] : []),
  ];
}

async function assessOnly(task: Parameters<typeof assessPhoto>[0]) {
  const assessed = await assessPhoto(task);
  return "refused" in assessed ? assessed : { ...assessed.numbers, ...assessed.seen };
}

const shown = (percent: number) => (percent < 1 ? percent.toFixed(3) : percent.toFixed(1));

function numberFrom(text: string): number {
  const value = Number(text);
  if (text.trim() === "" || !Number.isFinite(value)) throw new InvalidArgumentError("Expected a number.");
  return value;
}

function cornersFrom(text: string): NonNullable<Options["corners"]> {
  const [x0, y0, x1, y1, x2, y2, x3, y3, ...more] = text.split(",").map(numberFrom);
  if (y3 === undefined || more.length > 0)
    throw new InvalidArgumentError("Expected eight numbers: x,y of four corners.");
  return [
    [x0!, y0!],
    [x1!, y1!],
    [x2!, y2!],
    [x3!, y3],
  ];
}

function placeFrom(text: string): NonNullable<Options["white"]> {
  const [x, y, ...more] = text.split(",").map(numberFrom);
  if (x === undefined || y === undefined || more.length > 0)
    throw new InvalidArgumentError("Expected two numbers: x,y.");
  return [x, y];
}

function sizeFrom(text: string): Options["size"] {
  const [lengthMm, widthMm, ...more] = text.split(/[x×]/).map(numberFrom);
  if (lengthMm === undefined || widthMm === undefined || more.length > 0)
    throw new InvalidArgumentError("Expected length x width in mm, such as 100x50.");
  return { lengthMm, widthMm };
}

function hiddenFrom(text: string, before: readonly Hidden[]): Hidden[] {
  const [xMm, yMm, alongMm, acrossMm, ...more] = text.split(",").map(numberFrom);
  const isWhole = xMm !== undefined && yMm !== undefined && alongMm !== undefined && acrossMm !== undefined;
  if (!isWhole || more.length > 0 || alongMm <= 0 || acrossMm <= 0)
    throw new InvalidArgumentError("Expected four numbers in mm: x,y of its top left, length and width above 0.");
  return [...before, { xMm, yMm, alongMm, acrossMm }];
}

function contactFrom(text: string, before: readonly Contact[]): Contact[] {
  const [xMm, yMm, radiusMm, ...more] = text.split(",").map(numberFrom);
  if (xMm === undefined || yMm === undefined || radiusMm === undefined || more.length > 0 || radiusMm <= 0)
    throw new InvalidArgumentError("Expected three numbers in mm: x,y of the contact and a radius above 0.");
  return [...before, { xMm, yMm, radiusMm }];
}
