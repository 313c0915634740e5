/** The pages around a measured photograph, in a real browser: places left out, the first photograph, strokes, a face over time, many at once. */
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { builtServer, foundBrowser, openBrowser, openPage } from "./page-browser.ts";
import { temporaryFolder } from "./temporary-folder.ts";
import { takeMany } from "./walk-batch.ts";
import { compareFaces } from "./walk-faces.ts";
import { leavePlacesOut } from "./walk-leave-out.ts";
import { teachByStrokes } from "./walk-teach.ts";

const phone = { width: 390, height: 844, colorScheme: "dark" } as const;
const desk = { width: 1280, height: 800, colorScheme: "light" } as const;

// A machine without a browser tests the rest; where everything must be tested, that is a failure.
if (foundBrowser.advice !== null && process.env.CI) throw new Error(foundBrowser.advice);

describe.runIf(foundBrowser.advice === null)("photographs in the page", () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await openBrowser();
  });
  afterAll(() => browser.close());

  test.each([
    ["places are left out, on a phone at night", phone, leavePlacesOut],
    ["places are left out, on a desk by day", desk, leavePlacesOut],
    ["the reading is taught, on a phone at night", phone, teachByStrokes],
    ["the reading is taught, on a desk by day", desk, teachByStrokes],
    ["faces are compared, on a phone at night", phone, compareFaces],
    ["faces are compared, on a desk by day", desk, compareFaces],
    ["many photographs at once, on a phone at night", phone, takeMany],
    ["many photographs at once, on a desk by day", desk, takeMany],
  ])("%s", { timeout: 120_000 }, async (_what, screen, walk) => {
    const server = await builtServer(await temporaryFolder());
    const { context, page, faults, looked } = await openPage(browser, screen);
    await walk(page, server.url, looked);
    expect(faults).toEqual([]);
    await context.close();
    await server.close();
  });
});
