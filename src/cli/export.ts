/**
 * `export`: a trial as plain tables, with the options under which `findings` answers from them as the trial does; or its
 * planned looks as a calendar file.
 */
import { existsSync, mkdirSync, writeFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { Command } from "commander";
import { tableCsv } from "../api/plain-table-csv.ts";
import { plainTablesOf } from "../core/trial/plain-tables-of.ts";
import { trialRecord } from "../core/trial/trial-record.ts";
import { lookCalendar } from "../report/look-calendar.ts";
import { dateOption } from "./date-option.ts";
import { InputRefused } from "./exit.ts";
import { shopFolder } from "./shop-folder.ts";
import { withTrial } from "./shop-trial.ts";

type ExportOptions = { shop: string; out: string; calendar?: true; from?: string; json?: true };

export function exportCommand(): Command {
  return new Command("export")
    .description("give a trial back as plain tables, with the command that answers from each")
    .argument("<trial>", "the trial's name or id")
    .option("--shop <dir>", "the shop's folder", shopFolder())
    .option("--out <dir>", "folder for the tables", ".")
    .option("--calendar", "the planned looks as an iCalendar file (RFC 5545) instead of the tables")
    .option("--from <date>", "with --calendar: when coupons that are not out yet go out (YYYY-MM-DD)", dateOption)
    .option("--json", "one JSON value on standard output")
    .addHelpText("after", '\nExample:\n  coatwright export "Oil or wax in the unheated shed" --out tables')
    .action(async (wanted: string, options: ExportOptions) => {
      if (options.calendar) return exportCalendar(wanted, options);
      const { tables, cannot } = await withTrial(options.shop, wanted, async (_store, trial) =>
        plainTablesOf(trialRecord(trial, trial.observations)),
      );
      const folder = resolve(options.out);
      mkdirSync(folder, { recursive: true });
      const written = tables.map((table) => ({ file: join(folder, `${table.name}.csv`), table }));
      for (const { file } of written)
        if (existsSync(file)) throw new InputRefused(`${file} is there already; expected a folder without it (--out)`);
      for (const { file, table } of written) writeFileSync(file, tableCsv(table));
      const answers = written.map(({ file, table }) => ({ file, rows: table.rows.length, flags: table.flags }));
      console.log(options.json ? JSON.stringify({ tables: answers, cannot }, null, 2) : exportText(answers, cannot));
    });
}

async function exportCalendar(wanted: string, options: ExportOptions): Promise<void> {
  const file = join(resolve(options.out), "looks.ics");
  const content = await withTrial(options.shop, wanted, async (_store, trial) =>
    lookCalendar(trialRecord(trial, trial.observations), options.from ?? null, new Date()),
  );
  mkdirSync(resolve(options.out), { recursive: true });
  // An earlier calendar is meant to be replaced: its events keep their identity.
  writeFileSync(file, content);
  console.log(options.json ? JSON.stringify({ file }, null, 2) : file);
}

function exportText(answers: readonly { file: string; flags: string[] }[], cannot: readonly string[]): string {
  return [
    ...answers.map(({ file, flags }) => `coatwright findings ${[file, ...flags].map(quoted).join(" ")}`),
    ...cannot.map((what) => `Note: ${what}`),
  ].join("\n");
}

/**
 * To be copied into a shell. Double quotes are read alike by those of Linux, macOS and Windows, but in them a name may still
 * be carried out ("$(...)"); in single quotes none is.
 */
export function quoted(word: string): string {
  if (/^[\w./:=+-]+$/.test(word)) return word;
  if (!/[$`\\!%"\p{Cc}]/u.test(word)) return `"${word}"`;
  return `'${word.replaceAll("'", process.platform === "win32" ? "''" : "'\\''")}'`;
}
