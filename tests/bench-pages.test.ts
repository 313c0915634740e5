/** The rooms of the bench tests in a real browser: wear counted, a finish colour read, photographs graded again, an eye tested by grade. */
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { builtServer, foundBrowser, openBrowser, openPage } from "./page-browser.ts";
import { temporaryFolder } from "./temporary-folder.ts";
import { readFinishColours } from "./walk-colour.ts";
import { testEyeByGrade } from "./walk-eye-grades.ts";
import { gradeAgain } from "./walk-regrade.ts";
import { wearThrough } from "./walk-wear.ts";

const phone = { width: 390, height: 844, colorScheme: "dark" } as const;
const desk = { width: 1280, height: 800, colorScheme: "light" } as const;

// A machine without a browser tests the rest; where everything must be tested, that is a failure.
if (foundBrowser.advice !== null && process.env.CI) throw new Error(foundBrowser.advice);

describe.runIf(foundBrowser.advice === null)("tests at the bench, in the page", () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await openBrowser();
  });
  afterAll(() => browser.close());

  test.each([
    ["wear is counted, on a phone at night", phone, wearThrough],
    ["wear is counted, on a desk by day", desk, wearThrough],
    ["a colour is read on two dates, on a phone at night", phone, readFinishColours],
    ["a colour is read on two dates, on a desk by day", desk, readFinishColours],
    ["photographs are graded again, on a phone at night", phone, gradeAgain],
    ["photographs are graded again, on a desk by day", desk, gradeAgain],
    ["an eye is tested by grade, on a phone at night", phone, testEyeByGrade],
    ["an eye is tested by grade, on a desk by day", desk, testEyeByGrade],
  ])("%s", { timeout: 300_000 }, async (_what, screen, walk) => {
    const server = await builtServer(await temporaryFolder());
    const { context, page, faults, looked } = await openPage(browser, screen);
    await walk(page, server.url, looked);
    expect(faults).toEqual([]);
    await context.close();
    await server.close();
  });
});
