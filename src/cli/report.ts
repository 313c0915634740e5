/** `report`: one trial as a single printable file. */
import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { Command } from "commander";
import { trialReportPage } from "../server/trial-report-page.ts";
import { InputRefused } from "./exit.ts";
import { findBrowser } from "./find-browser.ts";
import { shopFolder } from "./shop-folder.ts";
import { withTrial } from "./shop-trial.ts";

type ReportOptions = { shop: string; out?: string; pdf?: boolean; json?: boolean };

export function reportCommand(): Command {
  return new Command("report")
    .description("write a trial's report: one self-contained HTML file, or a PDF")
    .argument("<trial>", "the trial's name or id")
    .option("--shop <dir>", "the shop's folder", shopFolder())
    .option("--out <file>", "where to write it (default: the trial's name, here)")
    .option("--pdf", "print it to PDF with the Chromium, Chrome or Edge of this machine")
    .option("--json", "one JSON value on standard output")
    .addHelpText("after", '\nExample:\n  coatwright report "Which after-treatment keeps billhooks clean" --pdf')
    .action(async (wanted: string, options: ReportOptions) => {
      const written = await withTrial(options.shop, wanted, async (store, trial) => {
        const html = await trialReportPage(store, trial, new Date());
        const file = resolve(options.out ?? `${fileName(trial.name)}.${options.pdf ? "pdf" : "html"}`);
        if (options.pdf) printToPdf(html, file);
        else writeFileSync(file, html);
        return { trial: trial.id, file, bytes: statSync(file).size };
      });
      console.log(options.json ? JSON.stringify(written) : written.file);
    });
}

function fileName(trialName: string): string {
  return trialName.replace(/[^\p{L}\p{N}]+/gu, "-").replace(/^-|-$/g, "") || "trial";
}

function printToPdf(html: string, file: string): void {
  const browser = findBrowser({ mayInstall: false });
  if (browser.path === null) throw new InputRefused(`--pdf needs a browser. ${browser.advice}`);
  const folder = mkdtempSync(join(tmpdir(), "coatwright-report-"));
  try {
    const page = join(folder, "report.html");
    writeFileSync(page, html);
    const rootNeedsIt = process.getuid?.() === 0 ? ["--no-sandbox"] : [];
    const flags = [
      "--headless",
      "--disable-gpu",
      "--no-first-run",
      "--disable-background-networking",
      "--no-pdf-header-footer",
    ];
    const { status } = spawnSync(
      browser.path,
      [
        ...flags,
        ...rootNeedsIt,
        `--user-data-dir=${join(folder, "profile")}`,
        `--print-to-pdf=${file}`,
        pathToFileURL(page).href,
      ],
      { stdio: "ignore", timeout: 120_000 },
    );
    if (status !== 0)
      throw new InputRefused(`${browser.path} could not print the report; the HTML form needs no browser`);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
