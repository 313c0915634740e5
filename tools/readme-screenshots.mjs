// Takes the README's screenshots of the demonstration shop: node tools/readme-screenshots.mjs (after a build).
import { mkdirSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { chromium } from "playwright-core";
import sharp from "sharp";

const root = join(dirname(fileURLToPath(import.meta.url)), "..");
const built = (path) => import(pathToFileURL(join(root, "dist", "node", path)).href);
const { openDemo } = await built("server/demo/open-demo.js");
const { findBrowser } = await built("cli/find-browser.js");

const folder = join(root, "docs", "screenshots");
mkdirSync(folder, { recursive: true });
const today = new Date().toISOString().slice(0, 10);
const workshop = mkdtempSync(join(tmpdir(), "coatwright-screenshots-"));
const server = await openDemo({ dir: join(workshop, "demo"), port: 0, today, progress: () => undefined });
const { path } = findBrowser({ mayInstall: false });
const browser = await chromium.launch({ executablePath: path, args: ["--no-sandbox", "--disable-gpu"] });
const trials = await (await fetch(`${server.url}api/trials`)).json();
const trialUrl = (start) => `${server.url}trials/${trials.find((one) => one.name.startsWith(start)).id}`;

await picture("today", { url: server.url, width: 390, height: 844 });
await picture("inspect", { url: `${trialUrl("Oil or wax")}/inspect`, width: 390, height: 844 });
await picture("trial", { url: trialUrl("Which after"), width: 1280, height: 800 });
await picture("looks", { url: trialUrl("Which after"), width: 1280, height: 800, at: "#looks" });
await picture("findings", { url: trialUrl("Which after"), width: 1280, height: 800, at: ".fig-finding >> nth=2" });
await browser.close();
await server.close();
rmSync(workshop, { recursive: true });

async function picture(name, { url, width, height, at }) {
  const page = await browser.newPage({ viewport: { width, height } });
  await page.goto(url);
  await page.locator("h1, .inspect-step, button").first().waitFor();
  if (at) {
    await page.locator(".fig-finding h4").first().waitFor({ timeout: 60_000 });
    await page.locator(at).evaluate((element) => element.scrollIntoView({ block: "start" }));
  }
  await page.waitForTimeout(2500);
  // 256 colours: a grid of little photographs would else weigh more than the rest of the README.
  await sharp(await page.screenshot())
    .png({ palette: true })
    .toFile(join(folder, `${name}.png`));
  await page.close();
}
