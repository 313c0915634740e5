/** `climate`: what a logger's file says of a place: hours wet, hours with dew on steel, hours unknown. */
import { Command, InvalidArgumentError, Option } from "commander";
import { dateOrders } from "../api/plain-table-date.ts";
import { climateLog } from "../core/climate/climate-log.ts";
import { type ClimateSummary, climateSummary } from "../core/climate/climate-summary.ts";
import { type ClimateOptions, readClimateFile, takeClimateRows } from "./climate-file.ts";
import { numberOption } from "./table-options.ts";

/** The sheet that condensation is told for when nobody names another. */
const usualSheetMm = 3;

export function climateCommand(): Command {
  return new Command("climate")
    .description("how long it was wet, how long dew stood on steel, and how much nobody knows, from a logger's file")
    .argument("<file>", "CSV with time_utc (or time), temp_c or temp_f, rh_percent or a dew point")
    .option("--zone <area/city>", "on whose wall clock the column time is written; nights run by it")
    .addOption(new Option("--dates <order>", "how dates that can be read two ways are meant").choices(dateOrders))
    .option("--thickness <mm>", "of the steel sheet on which dew is told", thicknessOption, usualSheetMm)
    .option("--json", "one JSON value on standard output")
    .addHelpText("after", "\nExample:\n  coatwright climate shed-logger.csv --zone Europe/Berlin --thickness 2")
    .action((path: string, options: ClimateOptions & { thickness: number; json?: true }) => {
      const reading = readClimateFile(path, options);
      const log = climateLog(takeClimateRows(path, reading));
      const summary = climateSummary(log, { thicknessMm: options.thickness, zone: options.zone ?? "UTC" });
      console.log(options.json ? JSON.stringify(summary, null, 2) : climateText(summary));
      const { columns, notes } = reading.understood;
      for (const { header, means } of columns)
        if (means !== null && means !== header) console.error(`${header} is read as ${means}.`);
      for (const note of notes) console.error(note);
    });
}

function thicknessOption(text: string): number {
  const thicknessMm = numberOption(text);
  if (thicknessMm <= 0) throw new InvalidArgumentError("Expected a thickness above 0 mm.");
  return thicknessMm;
}

function climateText(summary: ClimateSummary): string {
  const { readings, duplicates, intervalHours, observedHours, missingHours, wetHours, condensation } = summary;
  const hours = (value: number) => `${Math.round(value * 10) / 10} h`;
  return [
    `Wet for ${hours(wetHours)} of ${hours(observedHours)} observed; dew on ${condensation.thicknessMm} mm steel for ${hours(condensation.hours)} in ${condensation.nights} nights; ${hours(missingHours)} unknown.`,
    `${readings} readings (${duplicates} at a time that had one already), one every ${hours(intervalHours)}.`,
    summary.wetHoursPerYear === null
      ? "Less than 330 days were observed: no wet hours of a year, and no class."
      : `That is ${hours(summary.wetHoursPerYear)} a year, wetness class ${summary.timeOfWetnessClass}.`,
    ...summary.suspect.map(({ from, to, what }) => `  ${what}: ${from}${from === to ? "" : ` to ${to}`}`),
  ].join("\n");
}
