/**
 * How long a trial of 40 coupons and 10 looks takes to its findings, here and in a browser: the code that the page's worker runs, no server.
 *
 *   npx rolldown bench/findings-in-browser.ts --platform node --external rolldown --external playwright-core --file bench/findings-in-browser.mjs
 *   node bench/findings-in-browser.mjs > docs/findings-time.md
 */
import { rmSync } from "node:fs";
import { arch, cpus, tmpdir } from "node:os";
import { join } from "node:path";
import { chromium } from "playwright-core";
import { rolldown } from "rolldown";
import { findBrowser } from "../src/cli/find-browser.ts";
import { timedFindings } from "./forty-coupons.ts";

const rounds = 9;
const median = (values: readonly number[]) => values.toSorted((a, b) => a - b)[values.length >> 1]!;

async function inBrowser(): Promise<{ version: string; times: ReturnType<typeof timedFindings> }> {
  const file = join(tmpdir(), `forty-coupons-${process.pid}.js`);
  const bundle = await rolldown({ input: join(process.cwd(), "bench/forty-coupons.ts"), platform: "browser" });
  await bundle.write({ file, format: "iife", name: "bench" });
  const browser = await chromium.launch({
    executablePath: findBrowser({ mayInstall: false }).path ?? "",
    args: ["--no-sandbox"],
  });
  try {
    const page = await browser.newPage();
    await page.addScriptTag({ path: file });
    // The bundle puts its exports there.
    const times = await page.evaluate((count) => Reflect.get(globalThis, "bench").timedFindings(count), rounds);
    return { version: browser.version(), times };
  } finally {
    await browser.close();
    rmSync(file);
  }
}

const here = timedFindings(rounds);
const there = await inBrowser();
const row = (where: string, { answers, whole }: typeof here) =>
  `| ${where} | ${median(answers).toFixed(0)} ms | ${median(whole).toFixed(0)} ms |`;
console.log(`# How long findings take on the user's own device

A trial of 40 coupons (five treatments of eight, in blocks), 10 looks, three questions: time to first rust against the control, rusted area
against the control, and the times of all pairs. Median of ${rounds} rounds after the first. "Answers": every verdict, sentence and interval;
"with details": what a reader may unfold beside them too. The page computes both in a worker of its own; the shop's server takes no part.

Machine: ${cpus()[0]!.model.trim()}, ${arch()}, ${cpus().length} cores.

| where | answers | with details |
|---|---|---|
${[row(`Node ${process.versions.node}`, here), row(`Chromium ${there.version}`, there.times)].join("\n")}`);
