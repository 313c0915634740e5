/**
 * One hundred photographs of 12 megapixels through the page "Many photographs at once": chosen in a real browser, kept, sent, measured, stopped
 * in the middle and gone on with. Every one must be measured, and once.
 *
 *   node tools/go.mjs build
 *   npx rolldown bench/many-in-browser.ts --platform node --external sharp --external playwright-core --external @photostructure/sqlite --file dist/many-in-browser.mjs
 *   node dist/many-in-browser.mjs [--photos 100]
 *
 * Linux only (/proc). "server" and "measuring" are what the system gave to the two processes, "page" what the page's engine holds once its garbage
 * is gone, "renderer" what the system gave to the browser's largest drawing process.
 */
import { spawn } from "node:child_process";
import { randomUUID } from "node:crypto";
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { createInterface } from "node:readline";
import { parseArgs } from "node:util";
import { DatabaseSync } from "@photostructure/sqlite";
import { chromium } from "playwright-core";
import sharp from "sharp";
import { findBrowser } from "../src/cli/find-browser.ts";
import { renderCard, rustyCoupon } from "../tests/rendered-card.ts";

const { values } = parseArgs({ options: { photos: { type: "string", default: "100" } } });
const photos = Number(values.photos);
const folder = mkdtempSync(join(tmpdir(), "many-in-browser-"));

const { rgb, widthPx, heightPx } = renderCard({
  ...{ seed: 1, card: "medium", widthPx: 4000, heightPx: 3000, tiltDeg: 12, fills: 0.5, blurPx: 1, noise: 2 },
  coupon: rustyCoupon("phosphate oiled", { rustedPercent: 6, edgePercent: 12 }),
});
const jpeg = await sharp(rgb, { raw: { width: widthPx, height: heightPx, channels: 3 } })
  .jpeg({ quality: 92 })
  .toBuffer();
const files = Array.from({ length: photos }, (_, at) => join(folder, `coupon-${at + 1}.jpg`));
for (const [at, file] of files.entries()) {
  // The same picture as another file: a comment (T.81, B.2.4.5) right behind its first two bytes.
  const comment = Buffer.from(`\xff\xfe\0\x0anr ${String(at).padStart(5)}`, "latin1");
  writeFileSync(file, Buffer.concat([jpeg.subarray(0, 2), comment, jpeg.subarray(2)]));
}

const server = spawn(
  process.execPath,
  ["dist/node/cli/bin.js", "serve", "--shop", join(folder, "shop"), "--port", "0"],
  { stdio: ["ignore", "pipe", "inherit"] },
);
let url = "";
for await (const line of createInterface({ input: server.stdout })) {
  url = /http:\/\/127\.0\.0\.1:\d+\//.exec(line)?.[0] ?? "";
  if (url) break;
}
const asJson = { "content-type": "application/json" };
const trial = randomUUID();
const newTrial = {
  ...{ id: trial, name: "many photographs", by: "bench" },
  draft: {
    question: "Does wax hold off rust longer than oil?",
    questions: [{ response: "time to first rust", family: "control", margin: 1.5, atDay: null }],
    treatments: ["oil", "wax"].map((name, at) => ({
      ...{ name, role: at === 0 ? "control" : "finish", coupons: photos / 2, route: [{ name, treated: "alone" }] },
    })),
    ...{ blocks: 1, couponSize: { lengthMm: 100, widthMm: 60, thicknessMm: 3 }, edgeBandMm: 5 },
    ...{ rustThresholdPercent: 0.01, lookDays: [1, 7], rackColumns: 10, sparesOfEach: 0, seed: 7 },
  },
};
const sent = async (path: string, body: object) => {
  const answer = await fetch(`${url}api/${path}`, { method: "POST", headers: asJson, body: JSON.stringify(body) });
  if (!answer.ok) throw new Error(await answer.text());
};
await sent("trials", newTrial);
const outSince = new Date(Date.now() - 21 * 86_400_000).toISOString().slice(0, 10);
const coupons = Array.from({ length: photos }, (_, at) => String(at + 1));
await sent(`trials/${trial}/observations`, {
  ...{ id: randomUUID(), by: "bench", corrects: null },
  body: { kind: "put out", site: "shed", date: outSince, coupons },
});

const browser = await chromium.launch({
  executablePath: findBrowser({ mayInstall: false }).path!,
  args: ["--no-sandbox", "--disable-gpu"],
});
const page = await (await browser.newContext({ viewport: { width: 390, height: 844 } })).newPage();
page.on("pageerror", (error) => console.log(`page: ${error.message}`));
const asked = new Map<string, number>();
page.on("request", (request) => {
  if (request.method() !== "POST" || !request.url().endsWith("/api/measurements")) return;
  const { photo } = request.postDataJSON() as { photo: string };
  asked.set(photo, (asked.get(photo) ?? 0) + 1);
});
const engine = await page.context().newCDPSession(page);
await engine.send("Performance.enable");

/** MB resident now, and at most so far. */
function residentOf(pid: number | string): [number, number] {
  const status = readFileSync(`/proc/${pid}/status`, "utf8");
  const inMB = (what: string) =>
    Math.round((1024 * Number(new RegExp(`^${what}:\\s+(\\d+)`, "m").exec(status)?.[1])) / 1e6);
  return [inMB("VmRSS"), inMB("VmHWM")];
}

const childrenOf = (pid: number): string[] =>
  readdirSync(`/proc/${pid}/task`).flatMap((thread) =>
    readFileSync(`/proc/${pid}/task/${thread}/children`, "utf8").trim().split(" ").filter(Boolean),
  );

/** Of all renderers on this machine, the largest that this process started, by its grandchildren. */
function rendererMB(): number {
  const below = (pid: number): string[] => childrenOf(pid).flatMap((child) => [child, ...below(Number(child))]);
  const renderers = below(process.pid).filter((pid) =>
    readFileSync(`/proc/${pid}/cmdline`, "latin1").includes("--type=renderer"),
  );
  return Math.max(...renderers.map((pid) => residentOf(pid)[0]));
}

const began = Date.now();
async function row(what: string): Promise<void> {
  await engine.send("HeapProfiler.collectGarbage");
  const { metrics } = await engine.send("Performance.getMetrics");
  const heap = metrics.find(({ name }) => name === "JSHeapUsedSize")!.value / 1e6;
  const [measuring] = childrenOf(server.pid!);
  const held = [...residentOf(server.pid!), ...(measuring ? residentOf(measuring) : ["ended", ""])];
  const seconds = ((Date.now() - began) / 1000).toFixed(0);
  console.log(`| ${[what, seconds, ...held, heap.toFixed(1), rendererMB()].join(" | ")} |`);
}

const standing = async () => {
  const said = (await page.locator("h1").textContent())!;
  const [, done, all] = /^(\d+) of (\d+) photographs? measured/.exec(said) ?? [];
  return { said, done: Number(done), all: Number(all) };
};
const until = async (holds: () => Promise<boolean>) => {
  for (const limit = Date.now() + 20 * 60_000; !(await holds()); ) {
    if (Date.now() > limit) throw new Error(`still waiting after 20 minutes: ${(await standing()).said}`);
    await new Promise((resolve) => setTimeout(resolve, 200));
  }
};
/** Rows from `from` on, at every `each` measured, until `to` are. */
async function rowsUntil(from: number, to: number, each: number): Promise<void> {
  for (let next = from; next <= to; next += each) {
    await until(async () => (await standing()).done >= next);
    const shown = await page
      .getByLabel("Measured of all")
      .getAttribute("value", { timeout: 500 })
      .catch(() => null);
    await row(`${next} measured (progress shows ${shown ?? "no more"})`);
  }
}

console.log(
  "| at | s | server MB | most | measuring MB | most | page MB | renderer MB |\n|---|---|---|---|---|---|---|---|",
);
await page.goto(`${url}trials/${trial}/photographs`);
await page.getByText("Choose photographs").waitFor();
await row("open");
await page.locator('input[type="file"]').setInputFiles(files);
await page
  .locator(".batch-row")
  .nth(photos - 1)
  .waitFor({ timeout: 60_000 });
await row("chosen");
await page.getByText("All are dry and wiped").click();
await page.getByRole("button", { name: `Measure ${photos} photographs` }).click();
const middle = Math.round(photos * 0.4);
await rowsUntil(photos / 10, middle, photos / 10);
await page.getByRole("button", { name: "Stop" }).click();
await page.getByRole("button", { name: /^Go on with \d+ photographs?$/ }).waitFor({ timeout: 30_000 });
const stopped = await standing();
await new Promise((resolve) => setTimeout(resolve, 5000));
const later = await standing();
console.log(`Stopped: "${stopped.said}", five seconds later "${later.said}".`);
if (later.done !== stopped.done || stopped.done < middle)
  throw new Error("the stop did not hold, or lost what was measured");
await page.getByRole("button", { name: /^Go on with/ }).click();
await rowsUntil(photos / 2, photos, photos / 10);
await new Promise((resolve) => setTimeout(resolve, 10_000));
await row("ten seconds later");

const shown = await page.locator(".batch-measured").count();
const twice = [...asked.values()].filter((times) => times > 1).length;
console.log(
  `\n${(await standing()).said} ${shown} shown, ${asked.size} photographs asked for, ${twice} of them more than once.`,
);
await page.getByLabel("Your name").fill("bench");
await page.getByRole("button", { name: `Write down ${photos} looks` }).click();
await page
  .getByText("Written down for")
  .nth(photos - 1)
  .waitFor({ timeout: 120_000 });
const document = (await (await fetch(`${url}api/trials/${trial}`)).json()) as {
  observations: { body: { kind: string; coupon: string; measurement: string; rustedPercent: number } }[];
};
const looks = document.observations.map(({ body }) => body).filter(({ kind }) => kind === "look");
const reads = looks.map(({ rustedPercent }) => rustedPercent);
console.log(
  `${looks.length} looks of ${new Set(looks.map(({ coupon }) => coupon)).size} coupons with ${new Set(looks.map(({ measurement }) => measurement)).size} measurements, ${Math.min(...reads).toFixed(2)} to ${Math.max(...reads).toFixed(2)} % (drawn: 6).`,
);
await browser.close();
server.kill("SIGTERM");
await new Promise((resolve) => server.once("exit", resolve));
const db = new DatabaseSync(join(folder, "shop", "shop.db"));
const { rows, measured } = db
  .prepare("select count(*) as rows, count(distinct photo) as measured from measurement")
  .get() as {
  rows: number;
  measured: number;
};
db.close();
console.log(`The shop holds ${rows} measurements of ${measured} photographs.`);
rmSync(folder, { recursive: true });
