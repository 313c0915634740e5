/**
 * Two devices and one shop: the owner at the machine shares it encrypted and shows a code; a phone learns whom to trust, is
 * let in, photographs and writes down over TLS, and is sent away. Names that carry a script stay names.
 */
import { createHash, randomBytes, X509Certificate } from "node:crypto";
import { createServer } from "node:http";
import { join } from "node:path";
import type { Browser } from "playwright-core";
import sharp from "sharp";
import { describe, expect, onTestFinished, test } from "vitest";
import type { TrialDocument } from "../src/api/shop.ts";
import { pieceBytes, type UploadState } from "../src/api/upload.ts";
import { keyHashAt } from "./key-hash.ts";
import {
  builtServer,
  desk,
  foundBrowser,
  type Looked,
  openBrowser,
  openPage,
  type Page,
  phone,
  root,
} from "./page-browser.ts";
import { temporaryFolder } from "./temporary-folder.ts";
import { trialOutdoors } from "./trial-outdoors.ts";

/** A name as somebody might choose it who means harm. */
const wickedName = `<img src=x onerror="ran=1"><script>ran=1</script>`;

describe.runIf(foundBrowser.advice === null)("a shop shared with a phone", () => {
  test("paired, photographed, recorded, sent away", { timeout: 120_000 }, async () => {
    const server = await builtServer(await temporaryFolder(), 0, { host: "127.0.0.1" });
    onTestFinished(() => server.close());
    const trial = await trialOutdoors(server.url);
    const deskBrowser = await browserOf();
    const owner = await openPage(deskBrowser, desk);
    await owner.page.goto(`${server.url}sharing`);
    await owner.page.getByText("This shop is open on this machine alone.").waitFor();
    await owner.looked("sharing-off");
    await owner.page.getByRole("button", { name: "Share it" }).click();
    await owner.page.getByText("no device is let in yet").waitFor();
    const code = await showCode(owner.page, owner.looked);

    const [address] = server.sharing.state().addresses;
    const phoneBrowser = await browserOf(`--ignore-certificate-errors-spki-list=${await keyHashAt(address!)}`);
    const { page, looked, faults } = await openPage(phoneBrowser, phone);
    await learnWhomToTrust(page, server.sharing.state().trustAddresses[0]!, looked);
    expect((await page.goto(address!))?.status()).toBe(401);
    await page.getByText("This device is not let in, or was sent away.").waitFor();
    await page.goto(`${address}pair#${code}`);
    await letIn(page, looked);
    await owner.page.getByText(`“${wickedName}” is let in.`).waitFor();
    await owner.looked("devices");
    await bothWays(owner.page, "devices", desk);

    await page.getByRole("link", { name: "To what is due today" }).click();
    await page.getByLabel("Coupon in hand").waitFor();
    // Only a browser that trusts the certificate installs the worker: it opens the page in the yard.
    await page.evaluate(() => navigator.serviceWorker.ready.then(() => {}));
    await standing(page, looked);
    await writeDown(page, address!);
    expect(await page.evaluate(keptAnswers)).not.toEqual([]);
    const stored: TrialDocument = await (await fetch(`${server.url}api/trials/${trial}`)).json();
    expect(stored.observations.at(-1)?.body).toMatchObject({ kind: "look", coupon: "3", rustedPercent: 2 });
    expect(stored.observations.at(-1)?.by).toBe(wickedName);

    await owner.page.getByRole("button", { name: /^Send away/ }).click();
    await owner.page.getByRole("button", { name: "Send it away" }).click();
    await owner.page.getByText("no device is let in yet").waitFor();
    await page.getByText("This device is not let in, or was sent away.").waitFor();
    await expect.poll(() => page.evaluate(keptAnswers)).toEqual([]);
    await looked("sent-away");
    await letInAgainToLook(owner.page, page);
    // Nobody is led to a camera whose photograph the shop would refuse.
    await page.getByRole("link", { name: "This coupon over time" }).waitFor();
    expect(await page.getByText("Take a photograph").count()).toBe(0);
    await looked("looks-only");
    for (const one of [page, owner.page]) expect(await one.evaluate(() => "ran" in window)).toBe(false);
    expect(owner.faults).toEqual([]);
    expect(faults.filter((fault) => !/401|ERR_/.test(fault))).toEqual([]);
  });

  test("plain, it works too, and says what it goes without", { timeout: 60_000 }, async () => {
    const server = await builtServer(await temporaryFolder(), 0, { host: "127.0.0.1", start: "plain" });
    onTestFinished(() => server.close());
    // By its name on the network: to a browser, 127.0.0.1 is secure whatever it speaks.
    const address = server.sharing.state().addresses.find((one) => one.includes(".local"))!;
    const browser = await browserOf(`--host-resolver-rules=MAP ${new URL(address).hostname} 127.0.0.1`);
    const { page, looked } = await openPage(browser, phone);
    const { code } = server.sharing.pairing.open("helper");
    await page.addInitScript(() => {
      const { play } = HTMLMediaElement.prototype;
      HTMLMediaElement.prototype.play = function () {
        Object.assign(window, { played: this });
        return play.call(this);
      };
    });
    await page.goto(`${address}pair#${code}`);
    expect(await page.evaluate(() => isSecureContext)).toBe(false);
    await page.getByLabel("Name of this device").fill("phone by the tank");
    await page.getByRole("button", { name: "Let me in" }).click();
    await page.getByRole("link", { name: "To what is due today" }).click();
    await page.getByText("A trial is begun on an owner's device").waitFor();
    expect(await page.getByRole("button", { name: "Open it" }).count()).toBe(0);
    const trial = await trialOutdoors(server.url);
    await page.getByLabel("Coupon in hand").waitFor();
    expect(await page.getByRole("link", { name: "Start a trial" }).count()).toBe(0);
    await page.getByRole("button", { name: "Settings" }).click();
    await page.getByText("The connection is not encrypted").waitFor();
    await page.getByLabel("Your name").fill("Ines");
    await looked("standing-plain");
    await page.getByRole("button", { name: "Close" }).click();
    await writeDown(page, address);
    const stored: TrialDocument = await (await fetch(`${server.url}api/trials/${trial}`)).json();
    expect(stored.observations.at(-1)).toMatchObject({ by: "Ines", body: { kind: "look", coupon: "3" } });
    await largePhotoInPieces(page, address);
    // There is no wake lock here: a muted film of nothing plays instead, while a coupon is looked at and no longer.
    const film = () => page.evaluate(filmOfNothing);
    await expect.poll(film).toBe("plays, muted");
    await page.goto(address);
    await page.getByLabel("Coupon in hand").waitFor();
    expect(await film()).toBe("none");
  });

  test("no script but the page's own runs, and no other page can frame it", { timeout: 60_000 }, async () => {
    const server = await builtServer(await temporaryFolder());
    onTestFinished(() => server.close());
    const browser = await browserOf();
    const page = await (await browser.newContext()).newPage();
    await page.goto(server.url);
    const refused = await page.evaluate(async () => {
      const blocked: string[] = [];
      document.addEventListener("securitypolicyviolation", (event) => blocked.push(event.effectiveDirective));
      const inline = document.createElement("script");
      inline.textContent = "window.ran = 1";
      const foreign = document.createElement("script");
      foreign.src = "http://127.0.0.1:1/x.js";
      document.body.append(inline, foreign);
      document.body.insertAdjacentHTML("beforeend", '<img src="/no.png" onerror="window.ran = 1">');
      await new Promise((resolve) => setTimeout(resolve, 500));
      return { blocked: [...new Set(blocked)].sort(), ran: "ran" in window };
    });
    expect(refused).toEqual({ blocked: ["script-src-attr", "script-src-elem"], ran: false });
    expect(await framed(page, server.url)).toBe(false);
  });
});

/** What the page keeps of the shop for the yard, by address. */
async function keptAnswers(): Promise<string[]> {
  const caches = await Promise.all((await window.caches.keys()).map((name) => window.caches.open(name)));
  const kept = (await Promise.all(caches.map((cache) => cache.keys()))).flat();
  return kept.map(({ url }) => new URL(url).pathname).filter((path) => path.startsWith("/api/"));
}

function filmOfNothing(): string {
  const { played } = window as { played?: HTMLVideoElement };
  if (!played || played.srcObject === null) return "none";
  return `${played.paused ? "stands" : "plays"}, ${played.muted ? "muted" : "loud"}`;
}

async function browserOf(...flags: string[]): Promise<Browser> {
  const browser = await openBrowser(...flags);
  onTestFinished(() => browser.close());
  return browser;
}

async function showCode(page: Page, looked: Looked): Promise<string> {
  await page.getByRole("button", { name: "Show a code" }).click();
  await page.getByText("First time with this phone?").click();
  const code = String(await page.locator(".pairing-letters").textContent()).replace(/^Code:\s*/, "");
  expect(code).toMatch(/^[A-Z2-9]{4}-[A-Z2-9]{4}$/);
  await looked("pairing-code");
  await bothWays(page, "pairing-code", desk);
  return code;
}

async function learnWhomToTrust(page: Page, address: string, looked: Looked) {
  await page.goto(address);
  await page.getByRole("link", { name: "Get the certificate" }).waitFor();
  await looked("trust");
  await bothWays(page, "trust", phone);
  const der = await (await fetch(new URL("/coatwright-authority.crt", address))).arrayBuffer();
  expect(new X509Certificate(Buffer.from(der)).ca).toBe(true);
}

async function letIn(page: Page, looked: Looked) {
  await page.getByLabel("Name of this device").waitFor();
  expect(await page.getByLabel("Code").inputValue()).toMatch(/^[A-Z2-9]{4}-[A-Z2-9]{4}$/);
  expect(page.url()).not.toContain("#");
  await page.getByLabel("Name of this device").fill(wickedName);
  await looked("pair");
  await page.getByRole("button", { name: "Let me in" }).click();
  await page.getByText("This device is let in.").waitFor();
}

async function letInAgainToLook(owner: Page, page: Page) {
  await owner.getByLabel("looks only").check();
  await owner.getByRole("button", { name: "Show another code" }).click();
  const code = String(await owner.locator(".pairing-letters").textContent()).replace(/^Code:\s*/, "");
  await page.getByLabel("Code").fill(code.toLowerCase());
  await page.getByRole("button", { name: "Let me in" }).click();
  await page.getByText("This device looks only").waitFor();
}

/** What the settings say of this device; and who writes on it. */
async function standing(page: Page, looked: Looked) {
  await page.getByRole("button", { name: "Settings" }).click();
  await page.getByText("it looks and writes down").waitFor();
  expect(await page.getByText("does not trust the shop's certificate").count()).toBe(0);
  await page.getByLabel("Your name").fill(wickedName);
  await looked("standing");
  await page.getByRole("button", { name: "Close" }).click();
}

async function writeDown(page: Page, address: string) {
  await page.goto(`${address}c/2`);
  const sent = page.waitForResponse((answer) => answer.url().endsWith("/api/photos") && answer.status() === 201);
  const path = join(root, "tests", "pictures", "coupons", "1af-2204.jpg");
  await page.locator('input[type="file"]').first().setInputFiles(path);
  await sent;
  await page.goto(`${address}c/3`);
  await page.getByText("Judge by eye").click();
  await page.getByLabel("Rusted part of the face, in %").fill("2");
  const written = page.waitForResponse((answer) => answer.url().endsWith("/observations") && answer.status() === 201);
  await page.getByText("Write it down").click();
  await written;
}

/** A browser computes no content hash over plain http, and still a broken line costs one piece of a photograph and not all of it. */
async function largePhotoInPieces(page: Page, address: string) {
  const side = 800;
  const photo = await sharp(randomBytes(side * side * 3), { raw: { width: side, height: side, channels: 3 } })
    .jpeg({ quality: 98 })
    .toBuffer();
  let pieces = 0;
  page.on("response", (answer) => {
    if (answer.request().method() === "PATCH" && answer.ok()) pieces++;
  });
  await page.goto(`${address}c/4`);
  const last = page.waitForResponse(
    async (answer) => answer.request().method() === "PATCH" && (await answer.json()).photo !== null,
  );
  const input = page.locator('input[type="file"]').first();
  await input.setInputFiles({ name: "coupon.jpg", mimeType: "image/jpeg", buffer: photo });
  const stored: UploadState = await (await last).json();
  expect(stored.photo?.hash).toBe(createHash("sha256").update(photo).digest("hex"));
  expect(pieces).toBe(Math.ceil(photo.length / pieceBytes));
}

/** Whether another program's page shows the shop inside itself. */
async function framed(page: Page, url: string): Promise<boolean> {
  const foreign = createServer((_request, response) => {
    response.setHeader("content-type", "text/html");
    response.end(`<iframe src="${url}"></iframe>`);
  }).listen(0, "127.0.0.1");
  onTestFinished(() => void foreign.close());
  await new Promise((resolve) => foreign.once("listening", resolve));
  const address = foreign.address() as { port: number };
  await page.goto(`http://127.0.0.1:${address.port}/`);
  const inside = await (await page.locator("iframe").elementHandle())!.contentFrame();
  await page.waitForTimeout(500);
  return (await inside!.locator("#page").count()) > 0;
}

/** The other size and the other light, to be looked at. */
async function bothWays(page: Page, name: string, back: typeof phone | typeof desk) {
  for (const { width, height } of [phone, desk])
    for (const colorScheme of ["dark", "light"] as const) {
      await page.setViewportSize({ width, height });
      await page.emulateMedia({ colorScheme });
      const path = join(root, "test-artefacts", `${width}-${colorScheme}-${name}.png`);
      await page.screenshot({ path, fullPage: true });
      expect(
        await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth),
      ).toBeLessThanOrEqual(0);
    }
  await page.setViewportSize(back);
  await page.emulateMedia({ colorScheme: back.colorScheme });
}
