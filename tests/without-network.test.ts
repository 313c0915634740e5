/**
 * A phone in the yard: the shop is out of reach, the page opens from the device, what is recorded waits there through a
 * reload, and is in the shop exactly once and in order when it answers again.
 */
import { createHash, randomUUID } from "node:crypto";
import { readdir } from "node:fs/promises";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import type { TrialDocument } from "../src/api/shop.ts";
import { trialRecord } from "../src/core/trial/trial-record.ts";
import { builtServer, desk, foundBrowser, openBrowser, openPage, type Page, phone, root } from "./page-browser.ts";
import { cardPhoto, photoTrial } from "./photo-trial.ts";
import { temporaryFolder } from "./temporary-folder.ts";
import { trialOutdoors } from "./trial-outdoors.ts";
import {
  paleColour,
  photographOutOfReach,
  readOnce,
  setPaleCorners,
  trialToPhotograph,
  waitsInWords,
} from "./walk-yard-photographs.ts";

describe.runIf(foundBrowser.advice === null)("without network", () => {
  test("a round of looks in a yard out of reach", { timeout: 90_000 }, async () => {
    const { before, trial, browser, page, otherPage, again } = await shopAndPhone(trialOutdoors);
    await keepForTheYard(page, before.url, trial);
    await before.close();

    const cold = await otherPage();
    await cold.goto(before.url);
    await cold.getByText("The shop does not answer just now").waitFor();
    await cold.getByLabel("Coupon in hand").waitFor();
    const looks = ["3", "1", "4"];
    for (const [at, coupon] of looks.entries()) await lookByEye(cold, { coupon, percent: at + 1, waiting: at + 1 });
    await photograph(cold, "2");
    await cold.getByText("is kept on this device. It is sent by itself").waitFor();
    await endEyeTest(cold, 5);
    await cold.reload();
    await cold.getByRole("link", { name: "5 waiting" }).click();
    await cold.getByText("5 things recorded on this device are not in the shop yet").waitFor();
    await cold.getByText("Test of the eye, 20 plates").waitFor();
    await cold.getByText("Photograph of coupon 2, front").waitFor();
    await keepPictures(cold);

    const after = await again();
    await sendWhatWaits(cold);
    // Arrived, the photograph's inspection goes on.
    await cold.reload();
    await cold.getByRole("link", { name: "Rate coupon 2, front" }).waitFor();
    const stored: TrialDocument = await (await fetch(`${after.url}api/trials/${trial}`)).json();
    const stands = stored.observations.flatMap(({ body }) => (body.kind === "look" ? [body.coupon] : []));
    expect(stands).toEqual(looks);
    expect(await (await fetch(`${after.url}api/eye-tests`)).json()).toMatchObject([{ id: eyeTest.id, by: "Ines" }]);
    await browser.close();
    await after.close();
  });
});

describe.runIf(foundBrowser.advice === null)("without network, at the bench", () => {
  test("photographs of a tape test and of a colour wait with what is to be read from them", {
    timeout: 120_000,
  }, async () => {
    const { before, trial, browser, page, again } = await shopAndPhone(trialToPhotograph);
    await page.goto(`${before.url}trials/${trial}`);
    await page.locator("#tests").waitFor();
    await page.waitForLoadState("load");
    await before.close();

    await photographOutOfReach(page);
    await page.reload();
    await page.getByRole("link", { name: "6 waiting" }).click();
    await waitsInWords(page);
    await keepPictures(page, "waiting-photographs");

    const taken = await asFile(page);

    const after = await again();
    // The same shop under another name: to the browser another place, where nothing waits yet.
    const elsewhere = await page.context().newPage();
    await elsewhere.goto(new URL("waiting", after.url.replace("127.0.0.1", "localhost")).href);
    await takeIn(elsewhere, taken);
    await sendWhatWaits(page);
    readOnce(await (await fetch(`${after.url}api/trials/${trial}`)).json());
    await browser.close();
    await after.close();
  });
});

describe.runIf(foundBrowser.advice === null)("without network, many at once", () => {
  test("photographs chosen out of reach wait, go on after a reload, and are measured and written down once", {
    timeout: 120_000,
  }, async () => {
    const { before, trial, browser, page, otherPage, again } = await shopAndPhone(photoTrial);
    const { id } = trial;
    await page.goto(`${before.url}trials/${id}/photographs`);
    await page.getByText("Choose photographs").waitFor();
    await page.waitForLoadState("load");
    await before.close();

    const files = await Promise.all(
      [6, 0].map(async (rusted, at) => ({
        ...{ name: `${at + 1}.jpg`, mimeType: "image/jpeg", buffer: await cardPhoto(rusted) },
      })),
    );
    await page.locator('input[type="file"]').setInputFiles(files);
    await page.getByText("2 photographs wait on this device").waitFor();
    await page.getByText("All are dry and wiped").click();
    await page.getByRole("button", { name: "Measure 2 photographs" }).click();
    await keepPictures(page, "waiting-many");
    const cold = await otherPage();
    await cold.goto(`${before.url}trials/${id}/photographs`);
    await cold.getByText("2 photographs wait on this device").waitFor();
    await cold.getByRole("link", { name: "2 waiting" }).waitFor();

    const after = await again();
    await cold.getByRole("heading", { name: "2 of 2 photographs measured" }).waitFor({ timeout: 60_000 });
    await cold.getByRole("button", { name: "Write down 2 looks" }).click();
    await cold.getByText("Written down for").nth(1).waitFor();
    const stored: TrialDocument = await (await fetch(`${after.url}api/trials/${id}`)).json();
    const looks = stored.observations.flatMap(({ body }) => (body.kind === "look" ? [body.coupon] : []));
    expect(looks).toEqual(["1", "2"]);
    const measured = stored.measurements.map(({ request }) => request.photo);
    expect(measured.sort()).toEqual(files.map(({ buffer }) => sha256(buffer)).sort());
    await browser.close();
    await after.close();
  });
});

describe.runIf(foundBrowser.advice === null)("without network, at the brush", () => {
  test("a correction waits and is measured once; a colour that cannot be read is given its corners", {
    timeout: 90_000,
  }, async () => {
    const { shopDir, before, trial, browser, page, again } = await shopAndPhone(photoTrial);
    const { id } = trial;
    await page.goto(`${before.url}trials/${id}/inspect/1`);
    const photo = { name: "1.jpg", mimeType: "image/jpeg", buffer: await cardPhoto(6) };
    await page.locator('input[type="file"]').first().setInputFiles(photo);
    await page.getByRole("button", { name: "Dry and wiped" }).click();
    await page.getByText("Looks right").waitFor({ timeout: 30_000 });
    const read = await page.locator(".result-percent b").textContent();
    await before.close();

    await wipeAcross(page);
    await page.getByText("Your correction is kept on this device").waitFor();
    await keepPictures(page, "waiting-correction");
    await page.goto(`${before.url}trials/${id}`);
    const pale = await paleColour(page);
    await page.getByRole("link", { name: "3 waiting" }).waitFor();
    await page.goto(`${before.url}trials/${id}/inspect/1`);
    await page.getByText("Your correction is kept on this device").waitFor();

    const after = await again();
    await page.getByText("Corrected by hand: Ines, “that is clay”.").waitFor({ timeout: 30_000 });
    expect(await page.locator(".result-percent b").textContent()).not.toBe(read);
    await page.getByText("Looks right").click();
    await page.getByText(/^1 of 4/).waitFor();
    const stored: TrialDocument = await (await fetch(`${after.url}api/trials/${id}`)).json();
    expect(stored.measurements).toMatchObject([{ byHand: { by: "Ines", why: "that is clay" } }]);
    // One photograph, its three pictures, the two that the correction brought (it was measured with once), and the colour's.
    expect(await filesIn(join(shopDir, "photos"))).toBe(7);

    await page.getByRole("link", { name: "1 waiting" }).click();
    await setPaleCorners(page, pale, () => keepPictures(page, "waiting-corners"));
    await page.getByText("Nothing waits on this device").waitFor({ timeout: 30_000 });
    const read2: TrialDocument = await (await fetch(`${after.url}api/trials/${id}`)).json();
    expect(trialRecord(read2, read2.observations).finishColours).toMatchObject([{ body: { coupon: "2" } }]);
    await browser.close();
    await after.close();
  });
});

/** One broad stroke over the whole length of the coupon. */
async function wipeAcross(page: Page) {
  await page.getByRole("button", { name: "Fix it" }).click();
  await page.getByLabel("10 mm", { exact: true }).check();
  const board = page.getByLabel("The coupon cut out straight; paint with a finger or the mouse");
  await board.evaluate((element) => element.scrollIntoView({ block: "center", behavior: "instant" }));
  const box = (await board.boundingBox())!;
  await page.mouse.move(box.x + 4, box.y + box.height / 2);
  await page.mouse.down();
  await page.mouse.move(box.x + box.width - 4, box.y + box.height / 2, { steps: 6 });
  await page.mouse.up();
  await page.getByText("1 stroke").waitFor();
  await page.getByLabel("Why").fill("that is clay");
  await page.getByText("Measure with this").click();
}

async function filesIn(folder: string): Promise<number> {
  const found = await readdir(folder, { recursive: true, withFileTypes: true });
  return found.filter((one) => one.isFile() && !one.parentPath.includes("preview")).length;
}

const sha256 = (bytes: Buffer) => createHash("sha256").update(bytes).digest("hex");

/** The page may have sent by itself before the button is pressed: then the button is gone, and that is right, too. */
async function sendWhatWaits(page: Page) {
  const press = page.getByRole("button", { name: "Send now" }).click();
  const gone = page.getByText("Nothing waits on this device").waitFor({ timeout: 60_000 });
  await Promise.all([gone, press.catch(() => gone)]);
}

async function asFile(page: Page): Promise<string> {
  await page.getByText("The shop has another address now").click();
  const saving = page.waitForEvent("download");
  await page.getByText("Give me what waits as a file").click();
  const path = join(await temporaryFolder(), "waiting.coatwright");
  await (await saving).saveAs(path);
  await page.getByText("6 things saved").waitFor();
  await keepPictures(page, "waiting-file");
  return path;
}

async function takeIn(page: Page, path: string) {
  await page.getByText("The shop has another address now").click();
  await page.locator('input[type="file"]').setInputFiles(join(root, "package.json"));
  await page.getByText("no file of things that wait").waitFor();
  await page.locator('input[type="file"]').setInputFiles(path);
  await page.getByText("6 things taken in").waitFor();
  await page.getByText("Nothing waits on this device").waitFor({ timeout: 60_000 });
}

/** A shop with a trial, and a phone that knows who holds it and keeps the page itself. */
async function shopAndPhone<Trial>(trialIn: (url: string) => Promise<Trial>) {
  const shopDir = await temporaryFolder();
  const before = await builtServer(shopDir);
  const trial = await trialIn(before.url);
  const browser = await openBrowser();
  const { context, page } = await openPage(browser, phone);
  await nameOnDevice(page, before.url);
  await workerHoldsPage(page);
  return {
    ...{ shopDir, before, trial, browser, page },
    /** As after an empty battery: another page, the same device. */
    async otherPage() {
      await page.close();
      const cold = await context.newPage();
      cold.setDefaultTimeout(15_000);
      return cold;
    },
    /** The shop answers again, where it did. */
    again: () => builtServer(shopDir, Number(new URL(before.url).port)),
  };
}

async function nameOnDevice(page: Page, url: string) {
  await page.goto(url);
  await page.getByRole("button", { name: "Settings" }).click();
  await page.getByLabel("Your name").fill("Ines");
  await page.getByRole("button", { name: "Close" }).click();
}

/** The screens of the yard, seen once while the shop still answers; then the worker holds the page. */
async function keepForTheYard(page: Page, url: string, trial: string) {
  await page.reload();
  await page.getByLabel("Coupon in hand").waitFor();
  await page.goto(`${url}trials/${trial}`);
  await page.locator("#rack").waitFor();
  await page.waitForLoadState("load");
}

async function workerHoldsPage(page: Page) {
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => {}));
  await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
}

async function lookByEye(
  page: Page,
  { coupon, percent, waiting }: { coupon: string; percent: number; waiting: number },
) {
  await page.goto(new URL(`/c/${coupon}`, page.url()).href);
  await page.getByText("Judge by eye").click();
  await page.getByLabel("Rusted part of the face, in %").fill(String(percent));
  await page.getByText("Write it down").click();
  await page.getByRole("link", { name: `${waiting} waiting` }).waitFor();
}

async function photograph(page: Page, coupon: string) {
  await page.goto(new URL(`/c/${coupon}`, page.url()).href);
  const path = join(root, "tests", "pictures", "coupons", "1af-2204.jpg");
  await page.locator('input[type="file"]').first().setInputFiles(path);
}

const eyeTest = { id: randomUUID(), seed: 7, way: "percent", read: Array.from({ length: 19 }, () => 1) };

/** The last plate of a test that was begun on this device. */
async function endEyeTest(page: Page, waiting: number) {
  await page.evaluate((kept) => localStorage.setItem("coatwright draft eye test", kept), JSON.stringify(eyeTest));
  await page.goto(new URL("/eye", page.url()).href);
  await page.getByText("Go on with the test, plate 20").click();
  await page.getByRole("button", { name: "2", exact: true }).click();
  await page.getByText("That is my answer").click();
  await page.getByText("Write it down and show me").click();
  await page.getByRole("link", { name: `${waiting} waiting` }).waitFor();
}

/** At both sizes, by day and at night. */
async function keepPictures(page: Page, name = "waiting") {
  for (const { width, height, colorScheme } of [phone, desk]) {
    await page.setViewportSize({ width, height });
    await page.emulateMedia({ colorScheme });
    await page.screenshot({ path: join(root, "test-artefacts", `${width}-${name}.png`) });
  }
  await page.setViewportSize(phone);
}
