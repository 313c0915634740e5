/**
 * How soon the first page can be used on a phone: processor slowed 4 times, network as a fast 3G (562 ms, 180 kB/s).
 * Cold: nothing on the device. Warm: opened once before.
 *
 *   npx rolldown bench/first-page.ts --platform node --external playwright-core --file bench/first-page.mjs && node bench/first-page.mjs   (after a build)
 */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type BrowserContext, chromium, type Page } from "playwright-core";
import { findBrowser } from "../src/cli/find-browser.ts";

const root = join(import.meta.dirname, "..");
const rounds = 5;
const fast3g = { offline: false, latency: 562.5, downloadThroughput: 180_000, uploadThroughput: 84_000 };

const sentence = (page: Page) => page.locator("main h1");

/** Milliseconds until the sentence of the day stands there, and the script that travelled, kB. */
async function open(context: BrowserContext, url: string) {
  const page = await context.newPage();
  const phone = await context.newCDPSession(page);
  await phone.send("Network.enable");
  await phone.send("Network.emulateNetworkConditions", fast3g);
  await phone.send("Emulation.setCPUThrottlingRate", { rate: 4 });
  const scripts = new Set<string>();
  let bytes = 0;
  phone.on("Network.responseReceived", ({ requestId, type }) => {
    if (type === "Script") scripts.add(requestId);
  });
  phone.on("Network.loadingFinished", ({ requestId, encodedDataLength }) => {
    if (scripts.has(requestId)) bytes += encodedDataLength;
  });
  const began = performance.now();
  await page.goto(url, { waitUntil: "commit" });
  await sentence(page).waitFor();
  const ms = performance.now() - began;
  return { page, ms, scriptKb: bytes / 1000 };
}

const shopDir = mkdtempSync(join(tmpdir(), "coatwright-first-page-"));
const { makeDemoShop } = await import(join(root, "dist", "node", "server", "demo", "make-demo-shop.js"));
await makeDemoShop({ dir: join(shopDir, "demo"), today: new Date().toISOString().slice(0, 10), progress: () => {} });
const { startServer } = await import(join(root, "dist", "node", "server", "start-server.js"));
const server = await startServer({ shopDir: join(shopDir, "demo"), port: 0 });
const browser = await chromium.launch({
  executablePath: findBrowser({ mayInstall: false }).path!,
  args: ["--no-sandbox"],
});
console.log("round  cold ms  script kB  warm ms");
for (let round = 1; round <= rounds; round++) {
  const context = await browser.newContext({ viewport: { width: 390, height: 844 } });
  const cold = await open(context, server.url);
  await cold.page.evaluate(() => navigator.serviceWorker.ready.then(() => {}));
  await cold.page.reload();
  await sentence(cold.page).waitFor();
  await cold.page.close();
  const warm = await open(context, server.url);
  console.log(
    [round, cold.ms.toFixed(0), cold.scriptKb.toFixed(0), warm.ms.toFixed(0)]
      .map((cell, at) => String(cell).padStart([5, 8, 10, 8][at]!))
      .join(" "),
  );
  await context.close();
}
await browser.close();
await server.close();
rmSync(shopDir, { recursive: true });
