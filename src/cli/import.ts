/** `import`: shows how a plain table is understood, and makes a trial of it; a logger's file becomes readings of a site. */
import { randomUUID } from "node:crypto";
import { basename, extname } from "node:path";
import { Command, InvalidArgumentError } from "commander";
import type { PlainTableReading } from "../api/plain-table.ts";
import { requireAcceptable } from "../core/trial/observation-rules.ts";
import { type ImportedTrial, trialFromTable } from "../core/trial/trial-from-table.ts";
import type { Observation, Plan } from "../core/trial/trial-record.ts";
import { type AskOptions, tableAsk, withAskOptions } from "./ask-options.ts";
import { dateOption } from "./date-option.ts";
import { InputRefused, WrongUsage } from "./exit.ts";
import { importReadings } from "./import-readings.ts";
import { problemLine, questionLine, readTableFile, takeTable } from "./plain-table-file.ts";
import { shopFolder } from "./shop-folder.ts";
import { openToWrite } from "./shop-to-write.ts";
import { numberOption, readingWishes, type TableOptions, withTableOptions } from "./table-options.ts";

type ImportOptions = TableOptions &
  AskOptions & {
    dryRun?: true;
    shop: string;
    name?: string;
    question: string;
    by: string;
    size?: Plan["couponSize"];
    edgeBand: number;
    startedOn?: string;
    site?: string;
    zone?: string;
    again?: true;
    json?: true;
  };

export function importCommand(): Command {
  const command = new Command("import")
    .description("make a trial of a plain table; first see how it is understood")
    .argument("<file>", "CSV of looks, times, strokes or values, or (with --site) of a climate logger");
  return withAskOptions(withTableOptions(command))
    .option("--dry-run", "only show what is understood, and row by row what is not")
    .option("--name <text>", "the trial's name (else the file's)")
    .option("--question <text>", "what the trial asks, in your words", "")
    .option("--by <name>", "who took the notes, where the table names no inspector", "from a table")
    .option("--size <LxWxT>", "size of a coupon in mm, such as 100x60x3", sizeOption)
    .option("--edge-band <mm>", "band at the edges that is not assessed", numberOption, 5)
    .option("--started-on <date>", "date of day 0 of a table that counts days (YYYY-MM-DD)", dateOption)
    .option("--again", "make a second trial where one of the very same table is there")
    .option("--site <name>", "the file is a logger's: keep it as the readings of this site")
    .option("--zone <area/city>", "with --site: on whose wall clock the column time is written")
    .option("--shop <dir>", "the shop's folder", shopFolder())
    .option("--json", "one JSON value on standard output")
    .addHelpText(
      "after",
      '\nExamples:\n  coatwright import shed.csv --dates dmy --dry-run\n  coatwright import logger.csv --site "unheated shed" --zone Europe/Berlin',
    )
    .action((path: string, options: ImportOptions) =>
      options.site === undefined ? importTable(path, options) : importReadings(path, options.site, options),
    );
}

async function importTable(path: string, options: ImportOptions): Promise<void> {
  const reading = readTableFile(path, readingWishes(options));
  const { understood, problems, questions } = reading;
  if (options.dryRun)
    console.log(options.json ? JSON.stringify({ understood, problems, questions }, null, 2) : readingText(reading));
  const table = takeTable(path, reading);
  if (options.dryRun) return;
  if (!options.size) throw new WrongUsage("--size is missing: the size of a coupon in mm, such as 100x60x3");
  const imported = trialFromTable(table, tableAsk(table, options), {
    question: options.question,
    couponSize: options.size,
    edgeBandMm: options.edgeBand,
    startedOn: options.startedOn ?? null,
    by: options.by,
  });
  const name = options.name ?? basename(path, extname(path));
  const trial = await keep(name, imported, options);
  const { plan } = imported;
  console.log(
    options.json
      ? JSON.stringify(
          { trial, name, coupons: plan.places.length, observations: imported.observations.length },
          null,
          2,
        )
      : `"${name}" is in ${options.shop}: ${plan.places.length} coupons, ${imported.observations.length} observations.`,
  );
}

/** All of it or nothing: every observation is held against the rules of a trial before the first is stored. */
async function keep(name: string, imported: ImportedTrial, { shop, by, again }: ImportOptions): Promise<string> {
  const trial = { id: randomUUID(), name, createdAt: new Date().toISOString() };
  const bodies = [{ by, body: { kind: "plan", plan: imported.plan } as const }, ...imported.observations];
  const observations: Observation[] = bodies.map((one) => ({
    id: randomUUID(),
    recordedAt: trial.createdAt,
    corrects: null,
    ...one,
  }));
  for (const [at, one] of observations.entries())
    requireAcceptable({ ...trial, observations: observations.slice(0, at) }, one);
  const store = await openToWrite(shop);
  try {
    const twin = again ? null : await store.trials.begunWith(observations);
    if (twin)
      throw new InputRefused(
        `This very table is in ${shop} already, as the trial "${twin.name}"; --again makes a second one.`,
      );
    await store.trials.start(trial, observations);
  } finally {
    await store.close();
  }
  return trial.id;
}

function readingText({ understood, problems, questions }: PlainTableReading): string {
  const { form, delimiter, decimalMark, columns, rowsRead, coupons, treatments } = understood;
  return [
    form === null
      ? "Not one of the forms of a plain table."
      : `A table of ${form}, parted by ${delimiter}s${decimalMark === "," ? ", with decimal commas" : ""}.`,
    ...columns.map(({ header, means }) => `  ${header}: ${means ?? "carried along, not read"}`),
    `${rowsRead} rows read: ${coupons} coupons, ${treatments.length} treatments (${treatments.join(", ")}).`,
    ...(questions.length > 0 ? ["To be answered:", ...questions.map((one) => `  ${questionLine(one)}`)] : []),
    ...(problems.length > 0
      ? [`Not understood (${problems.length}):`, ...problems.map((one) => `  ${problemLine(one)}`)]
      : []),
  ].join("\n");
}

function sizeOption(text: string): Plan["couponSize"] {
  const [lengthMm, widthMm, thicknessMm, ...more] = text.split("x").map(Number);
  if (!lengthMm || !widthMm || !thicknessMm || more.length > 0 || Math.min(lengthMm, widthMm, thicknessMm) <= 0)
    throw new InvalidArgumentError("Expected length x width x thickness in mm, such as 100x60x3.");
  return { lengthMm, widthMm, thicknessMm };
}
