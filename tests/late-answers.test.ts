/** Nothing moves from under a finger when an answer comes late: on a slow network what is pressed would be another thing. */
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, onTestFinished, test } from "vitest";
import { openShop } from "../src/store/open-shop.ts";
import { builtServer, foundBrowser, openBrowser, phone } from "./page-browser.ts";
import { temporaryFolder } from "./temporary-folder.ts";
import { trialOutdoors } from "./trial-outdoors.ts";

const lateMs = 1500;

describe.runIf(foundBrowser.advice === null)("late answers move nothing", () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await openBrowser();
  });
  afterAll(() => browser.close());

  test.each(["sites", "me", "shop"])("on Today, where /api/%s comes last", { timeout: 60_000 }, async (last) => {
    const server = await builtServer(await temporaryFolder());
    onTestFinished(() => server.close());
    await trialOutdoors(server.url);
    const page = await emptyPage();
    await page.route(`**/api/${last}`, async (route) => {
      await new Promise((ready) => setTimeout(ready, lateMs));
      await route.continue();
    });
    const answered = page.waitForResponse(`**/api/${last}`);
    await page.goto(server.url);
    await page.getByRole("button", { name: "Look at it" }).waitFor();
    await answered;
    await page.getByRole("heading", { name: "Sites" }).waitFor();
    await page.getByRole("link", { name: "Start a trial" }).waitFor();
    expect(await moved(page)).toEqual([]);
  });

  test("on the first visit to a demonstration, whose mark comes last", { timeout: 60_000 }, async () => {
    const shopDir = await temporaryFolder();
    const shop = await openShop(shopDir);
    await shop.settings.declareInvented("2026-05-01T09:00:00Z");
    await shop.close();
    const server = await builtServer(shopDir);
    onTestFinished(() => server.close());
    await trialOutdoors(server.url);
    const page = await emptyPage();
    await page.route("**/api/shop", async (route) => {
      await new Promise((ready) => setTimeout(ready, lateMs));
      await route.continue();
    });
    await page.goto(server.url);
    await page.getByRole("heading", { name: "Sites" }).waitFor();
    await page.getByText("Demonstration shop: every coupon").waitFor();
    expect(await moved(page)).toEqual([]);
  });

  test.each([
    ["a log", keepLog, /^Wet for \d+ of \d+ hours/],
    ["no log", async () => {}, /There is no climate log of shed/],
  ])(
    "on a trial's page, where the readings of its site come last: %s",
    { timeout: 60_000 },
    async (_, before, said) => {
      const server = await builtServer(await temporaryFolder());
      onTestFinished(() => server.close());
      const trial = await trialOutdoors(server.url);
      await before(server.url);
      const page = await emptyPage();
      let answer: () => void = () => {};
      const mayAnswer = new Promise<void>((may) => {
        answer = may;
      });
      await page.route("**/readings?*", async (route) => {
        await mayAnswer;
        await route.continue();
      });
      await page.goto(`${server.url}trials/${trial}`);
      const outdoors = page.locator("#outdoors");
      await outdoors.getByText("Reading the shop's record").waitFor();
      await outdoors.getByText("wet hours", { exact: true }).waitFor();
      expect(await outdoors.getByText("There is no climate log").count()).toBe(0);
      // A browser counts no shift of what is out of sight.
      await outdoors.evaluate((part) => part.scrollIntoView({ behavior: "instant" }));
      expect(await moved(page)).toEqual([]);
      const below = await placePx(page, "#looks");
      answer();
      await outdoors.getByText(said).waitFor();
      expect(await moved(page)).toEqual([]);
      expect(await placePx(page, "#looks")).toBe(below);
    },
  );

  test("on what waits, where the browser is slow to tell its room", { timeout: 60_000 }, async () => {
    const server = await builtServer(await temporaryFolder());
    onTestFinished(() => server.close());
    const page = await emptyPage();
    await page.addInitScript((ms) => {
      const estimate = navigator.storage.estimate.bind(navigator.storage);
      navigator.storage.estimate = () => new Promise((told) => setTimeout(() => told(estimate()), ms));
    }, lateMs);
    await page.goto(`${server.url}waiting`);
    await page.getByText("Nothing waits on this device").waitFor();
    await page.getByText("This page uses").waitFor();
    expect(await moved(page)).toEqual([]);
  });

  /** Without a service worker: it would give kept answers at once. */
  async function emptyPage() {
    const context = await browser.newContext({
      viewport: { width: phone.width, height: phone.height },
      serviceWorkers: "block",
    });
    onTestFinished(() => context.close());
    const page = await context.newPage();
    await page.addInitScript(() => {
      const seen: string[] = [];
      Object.assign(window, { moved: seen });
      new PerformanceObserver((list) => {
        for (const entry of list.getEntries() as (PerformanceEntry & Shift)[])
          seen.push(...entry.sources.map(({ node }) => node?.textContent?.slice(0, 60) ?? "gone"));
      }).observe({ type: "layout-shift", buffered: true });
    });
    return page;
  }
});

/** From the head of the page. */
const placePx = (page: Page, part: string): Promise<number> =>
  page.locator(part).evaluate((element) => Math.round(element.getBoundingClientRect().top + scrollY));

/** Every hour of a week in the shed, up to now. */
async function keepLog(url: string): Promise<void> {
  const readings = Array.from({ length: 7 * 24 }, (_, hour) => ({
    at: new Date(Date.now() - hour * 3_600_000).toISOString(),
    tempC: 8,
    rhPercent: hour % 3 === 0 ? 90 : 60,
  }));
  const answer = await fetch(`${url}api/sites/shed/readings`, {
    method: "POST",
    headers: { "content-type": "application/json" },
    body: JSON.stringify(readings),
  });
  expect(answer.status, await answer.text()).toBe(201);
}

type Shift = { sources: { node: Node | null }[] };
type Page = Awaited<ReturnType<Browser["newPage"]>>;

/** What moved, by its first words, once the last frame is drawn. */
async function moved(page: Page): Promise<string[]> {
  await page.waitForTimeout(500);
  return page.evaluate(() => (window as unknown as { moved: string[] }).moved);
}
