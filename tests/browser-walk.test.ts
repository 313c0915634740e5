/**
 * The whole job in the page, in a real browser: a trial is made, coated, put out, photographed, corrected, tested, closed, and
 * read as findings and as a printed report; then the server is started again and nothing is lost.
 */
import { randomUUID } from "node:crypto";
import { existsSync } from "node:fs";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { TrialDocument } from "../src/api/shop.ts";
import { trialRecord } from "../src/core/trial/trial-record.ts";
import { accessFaults, browserPath, builtServer, keepPicture, openBrowser, overflowPx, root } from "./page-browser.ts";
import { temporaryFolder } from "./temporary-folder.ts";

const photographs = ["1af-1604.jpg", "1af-2204.jpg"].map((name) => join(root, "tests", "pictures", "coupons", name));
const daysAgo = (days: number) => new Date(Date.now() - days * 86_400_000).toISOString().slice(0, 10);
const putOutOn = daysAgo(21);

// A machine without a browser says so at the start of `npm test`; with CI set that has already ended the run.
describe.runIf(existsSync(browserPath))("the job in the page", () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await openBrowser();
  });
  afterAll(() => browser.close());

  test.each([
    ["on a phone, at night", { width: 390, height: 844 }, "dark"],
    ["on a desk, by day", { width: 1280, height: 800 }, "light"],
  ] as const)("%s", { timeout: 150_000 }, async (name, viewport, colorScheme) => {
    const shopDir = await temporaryFolder();
    let server = await builtServer(shopDir);
    const context = await browser.newContext({ viewport, colorScheme, bypassCSP: true });
    const page = await context.newPage();
    page.setDefaultTimeout(15_000);
    const faults: string[] = [];
    page.on("pageerror", (error) => faults.push(error.message));
    const looked = async (what: string) => {
      await keepPicture(page, `${viewport.width}-${what}`);
      expect(await overflowPx(page), `${what} is wider than the window`).toBeLessThanOrEqual(0);
      expect(await accessFaults(page), what).toEqual([]);
    };

    await page.goto(server.url);
    await page.locator("h1").waitFor();
    await looked("first-use");

    const id = await makeTrial(page, server.url, looked);
    const trialUrl = `${server.url}trials/${id}`;
    const elsewhere = await context.newPage();
    await elsewhere.goto(trialUrl);
    await elsewhere.locator("#rack").waitFor();
    await coatAndPutOut(page, looked);
    // The other open page knows it without being asked again.
    await elsewhere.locator("h1", { hasText: "shed roof" }).waitFor();
    await elsewhere.close();
    await inspectWithPhotographs(page, trialUrl, looked);
    await writeTheRest(server.url, id);
    await tapeTest(page, trialUrl);
    await readFindings(page, trialUrl, looked);
    await readReport(page, server.url, id);

    const before = await documentOf(server.url, id);
    await server.close();
    server = await builtServer(shopDir);
    expect(await documentOf(server.url, id)).toEqual(before);
    expect(faults, name).toEqual([]);
    await context.close();
    await server.close();
  });
});

type Looked = (what: string) => Promise<void>;

async function makeTrial(page: Page, url: string, looked: Looked): Promise<string> {
  await page.goto(`${url}trials/new`);
  await page.getByLabel("What do you want to know?").fill("Does wax keep plane irons clean longer than oil?");
  const cards = page.locator(".treatment-card");
  for (const [at, [name, step]] of [
    ["oiled", "emulsion oil"],
    ["waxed", "paste wax"],
  ].entries()) {
    await cards.nth(at).getByLabel("Name").fill(name!);
    await cards.nth(at).getByLabel("Step 1", { exact: true }).fill(step!);
  }
  await cards.nth(2).getByLabel("Name").fill("bare");
  await page.getByLabel("Your name").fill("Ines");
  await looked("new-trial");
  await page.getByText("Draw the lot and make").click();
  await page.waitForURL(/trials\/[0-9a-f-]{36}$/);
  await page.locator("#rack").waitFor();
  await looked("trial");
  return page.url().slice(-36);
}

async function coatAndPutOut(page: Page, looked: Looked): Promise<void> {
  await page.getByText("Write down a step").click();
  await page.locator("#done select").first().selectOption("paste wax");
  await page.locator("#done").getByText("All still to do").click();
  await page.getByText("Keep this step").click();
  await page.locator("#done summary", { hasText: "paste wax" }).waitFor();
  await page.locator("summary", { hasText: "Write down a deviation" }).click();
  await page.locator("#done").getByLabel("What went otherwise").fill("dropped on the bench");
  await page.locator("#done").getByLabel("Coupon 3", { exact: true }).last().check({ force: true });
  await page.getByText("Keep this deviation").click();
  await page.getByText("dropped on the bench").first().waitFor();
  await page.locator("summary", { hasText: "Put coupons out" }).click();
  await page.locator("#outdoors").getByLabel("Site").fill("shed roof");
  await page.locator("#outdoors").getByLabel("Put out on").fill(putOutOn);
  await page.getByText("Put them out").click();
  await page.locator("h1", { hasText: "shed roof" }).waitFor();
  await looked("outdoors");
}

/** Two coupons by photograph: the first as measured, the second corrected with the brush. */
async function inspectWithPhotographs(page: Page, trialUrl: string, looked: Looked): Promise<void> {
  await page.goto(`${trialUrl}/inspect`);
  await page.getByText("Take a photograph").waitFor();
  for (const treatment of ["oiled", "waxed", "paste wax"]) expect(await page.getByText(treatment).count()).toBe(0);
  await looked("inspect");
  await measurePhotograph(page, photographs[0]!);
  await looked("measured");
  await page.getByText("Looks right").click();
  await page.getByText("1 of").first().waitFor();

  await measurePhotograph(page, photographs[1]!);
  await page.getByText("Fix it").click();
  const board = page.getByLabel("The coupon cut out straight; paint with a finger or the mouse");
  await board.scrollIntoViewIfNeeded();
  const box = (await board.boundingBox())!;
  await page.mouse.move(box.x + box.width * 0.3, box.y + Math.min(box.height, 200) * 0.4);
  await page.mouse.down();
  await page.mouse.move(box.x + box.width * 0.6, box.y + Math.min(box.height, 200) * 0.5, { steps: 6 });
  await page.mouse.up();
  await page.getByLabel("Why").fill("the rim of the spot was left out");
  await looked("brush");
  await page.getByText("Measure with this").click();
  await page.getByText("Corrected by hand").waitFor();
  await page.getByText("Looks right").click();
  await page.getByText("2 of").first().waitFor();
}

async function measurePhotograph(page: Page, file: string): Promise<void> {
  await page.locator('input[type="file"]').first().setInputFiles(file);
  await page.getByRole("button", { name: "Measure", exact: true }).click();
  await page.getByText("Looks right").waitFor({ timeout: 40_000 });
}

/** The looks that the page would only repeat, through the same door that the page uses: wax later than oil. */
async function writeTheRest(url: string, id: string): Promise<void> {
  const { plan } = trialRecord(...recordParts(await documentOf(url, id)));
  for (const place of plan.places)
    for (const day of [1, 4, 7, 14]) {
      const rustedFrom = place.treatment === "waxed" ? 14 : place.treatment === "oiled" ? 4 : 1;
      const rustedPercent = day >= rustedFrom ? day / 4 : 0;
      const when = { date: daysAgo(21 - day) };
      const look = {
        kind: "look",
        coupon: place.coupon,
        face: "front",
        when,
        rustedPercent,
        edgePercent: null,
        how: "eye",
        blind: true,
        measurement: null,
      };
      const response = await fetch(`${url}api/trials/${id}/observations`, {
        method: "POST",
        headers: { "content-type": "application/json" },
        body: JSON.stringify({ id: randomUUID(), by: "Ines", corrects: null, body: look }),
      });
      expect(response.status, await response.text()).toBe(201);
    }
}

async function tapeTest(page: Page, trialUrl: string): Promise<void> {
  await page.goto(trialUrl);
  const tests = page.locator("#tests");
  await tests.locator("summary").last().click();
  await tests.getByLabel("Coupon", { exact: true }).selectOption("1");
  await tests.getByLabel(/4B/).check({ force: true });
  await tests.getByText("Write it down").click();
  await tests.getByText("4B").first().waitFor();
}

async function readFindings(page: Page, trialUrl: string, looked: Looked): Promise<void> {
  await page.goto(trialUrl);
  await page.getByText("Close the trial", { exact: true }).click();
  await page.getByText("Yes, close it").click();
  await page.locator(".fig-finding h4").first().waitFor({ timeout: 30_000 });
  expect(await page.locator(".fig-finding").first().textContent()).toMatch(/waxed (beat|against) oiled/i);
  await page.locator(".fig-finding").first().scrollIntoViewIfNeeded();
  await looked("findings");
}

async function readReport(page: Page, url: string, id: string): Promise<void> {
  await page.goto(`${url}api/trials/${id}/report`);
  const text = await page.locator("body").textContent();
  for (const said of ["Does wax keep plane irons clean", "dropped on the bench", "shed roof", "Findings", "Cautions"])
    expect(text).toContain(said);
  expect(await page.locator("img").count()).toBeGreaterThanOrEqual(2);
  for (const format of ["A4", "Letter"]) {
    const pdf = await page.pdf({ format });
    expect(pdf.subarray(0, 5).toString()).toBe("%PDF-");
    expect(pdf.toString("latin1").match(/\/Type \/Page\b/g)?.length ?? 0).toBeGreaterThanOrEqual(2);
  }
  await keepPicture(page, `report-${page.viewportSize()!.width}`);
}

async function documentOf(url: string, id: string): Promise<TrialDocument> {
  return (await fetch(`${url}api/trials/${id}`)).json();
}

const recordParts = ({ id, name, observations }: TrialDocument) => [{ id, name }, observations] as const;
