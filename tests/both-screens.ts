/** Walks through the page in a real browser, each on a phone at night and on a desk by day, in a shop of its own. */
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import {
  builtServer,
  desk,
  foundBrowser,
  type Looked,
  openBrowser,
  openPage,
  type Page,
  phone,
} from "./page-browser.ts";
import { temporaryFolder } from "./temporary-folder.ts";

type Walk = (page: Page, url: string, looked: Looked) => Promise<void>;

const screens = [
  ["on a phone at night", phone],
  ["on a desk by day", desk],
] as const;

/** Nothing may be complained of in the console on the way. `timeout` in ms. */
export function onBothScreens(about: string, timeout: number, walks: Readonly<Record<string, Walk>>): void {
  // A machine without a browser tests the rest; where everything must be tested, that is a failure.
  if (foundBrowser.advice !== null && process.env.CI) throw new Error(foundBrowser.advice);

  describe.runIf(foundBrowser.advice === null)(about, () => {
    let browser: Browser;
    beforeAll(async () => {
      browser = await openBrowser();
    });
    afterAll(() => browser.close());

    const all = Object.entries(walks).flatMap(([what, walk]) =>
      screens.map(([where, screen]) => [`${what}, ${where}`, screen, walk] as const),
    );
    test.each(all)("%s", { timeout }, async (_what, screen, walk) => {
      const server = await builtServer(await temporaryFolder());
      const { context, page, faults, looked } = await openPage(browser, screen);
      await walk(page, server.url, looked);
      expect(faults).toEqual([]);
      await context.close();
      await server.close();
    });
  });
}
