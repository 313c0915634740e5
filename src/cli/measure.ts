/** `measure`: one photograph, four corners and a size to rusted percent and grades. */
import { existsSync, mkdirSync } from "node:fs";
import { Command, InvalidArgumentError, Option } from "commander";
import type { MeasurementRequest } from "../api/photo.ts";
import { cardRulerPrintedMm } from "../core/vision/measuring-card.ts";
import { rustModel1 } from "../core/vision/rust-model-1.ts";
import { assessPhoto, measurePhoto } from "../server/photos/measure-photo.ts";
import { InputRefused } from "./exit.ts";

type Options = {
  corners?: NonNullable<MeasurementRequest["cornersPx"]>;
  size: MeasurementRequest["sizeMm"];
  edgeBand: number;
  thickness?: number;
  cardRuler: number;
  out?: string;
  json?: boolean;
};

export function measureCommand(): Command {
  return new Command("measure")
    .description("rusted percent and grades from a photograph")
    .argument("<photo>", "JPEG, PNG or WebP")
    .addOption(
      new Option(
        "--corners <x,y,...>",
        "the coupon's four corners in px of the upright picture, clockwise from its top left; without them, by the measuring card",
      ).argParser(cornersFrom),
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
    .option("--out <folder>", "write the rectified picture, the mask and the overlay there")
    .option("--json", "one JSON value on standard output")
    .addHelpText(
      "after",
      "\nExample:\n  coatwright measure coupon-14.jpg --corners 310,220,2890,240,2870,1540,300,1510 --size 100x50 --out measured",
    )
    .action(measure);
}

async function measure(photoPath: string, options: Options): Promise<void> {
  if (!existsSync(photoPath)) throw new InputRefused(`${photoPath} is not there; expected a photograph`);
  const request = {
    cornersPx: options.corners ?? null,
    sizeMm: options.size,
    edgeBandMm: options.edgeBand,
    ...(options.thickness === undefined ? {} : { thicknessMm: options.thickness }),
  };
  const printScale = options.cardRuler / cardRulerPrintedMm;
  const known = { printScale, model: rustModel1, first: null, progress: () => {} };
  if (options.out) mkdirSync(options.out, { recursive: true });
  const measured = options.out
    ? await measurePhoto({ photoPath, request, ...known, outDir: options.out })
    : await assessOnly({ photoPath, request, ...known });
  if ("refused" in measured) throw new InputRefused(`${photoPath} is not rated. ${measured.sentence}`);
  if (options.json) {
    console.log(JSON.stringify({ photo: photoPath, ...request, ...measured }, null, 2));
    return;
  }
  const edge = measured.edgePercent === null ? "" : `, edge band ${shown(measured.edgePercent)} %`;
  console.log(`Rusted: face ${shown(measured.rustedPercent)} % of ${measured.assessedAreaMm2.toFixed(0)} mm²${edge}`);
  const { rustPercentInterval: within, gradeSpan: span } = measured;
  if (within && span)
    console.log(
      `${within.confidencePercent} % sure: between ${shown(within.low)} and ${shown(within.high)} %, ASTM D610 from ${span.worst} to ${span.best}`,
    );
  console.log(
    `ASTM D610 scale: ${measured.d610}${measured.d610Letter ? `-${measured.d610Letter}` : ""}   ISO 10289 table: ${measured.iso10289} (formula ${measured.iso10289Continuous.toFixed(1)})`,
  );
  const { count = 0, largest = [] } = measured.spots ?? {};
  if (largest[0]) console.log(`Rust spots: ${count}, the largest ${largest[0].diameterMm.toFixed(1)} mm across`);
  console.log(`At ${measured.pxPerMm.toFixed(1)} px per mm, by: ${measured.method}`);
  if ("overlayPath" in measured) console.log(`Look at what was counted: ${measured.overlayPath}`);
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

function sizeFrom(text: string): Options["size"] {
  const [lengthMm, widthMm, ...more] = text.split(/[x×]/).map(numberFrom);
  if (lengthMm === undefined || widthMm === undefined || more.length > 0)
    throw new InvalidArgumentError("Expected length x width in mm, such as 100x50.");
  return { lengthMm, widthMm };
}
