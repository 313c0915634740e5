/**
 * How many taps there are between what a person has before them in the yard and the camera: a coupon's number, the label on
 * it, or the next look that is due. On a phone and on a small tablet, within reach of the hand that holds it.
 */
import { describe, expect, onTestFinished, test } from "vitest";
import { builtServer, foundBrowser, openBrowser, openPage, type Page } from "./page-browser.ts";
import { temporaryFolder } from "./temporary-folder.ts";
import { trialOutdoors } from "./trial-outdoors.ts";

const smallestPx = 56;

describe.runIf(foundBrowser.advice === null)("from what is in one's hand to the camera", () => {
  test.each([
    ["a phone", { width: 390, height: 844, colorScheme: "light" }],
    ["a small tablet", { width: 768, height: 1024, colorScheme: "dark" }],
  ] as const)("are two taps at most, on %s", { timeout: 60_000 }, async (_what, screen) => {
    const server = await builtServer(await temporaryFolder());
    onTestFinished(() => server.close());
    const trial = await trialOutdoors(server.url);
    const browser = await openBrowser();
    onTestFinished(() => browser.close());
    const { page } = await openPage(browser, screen);
    // Nobody goes through the device for a picture of what is before them: the button asks for the camera at the back.
    const camera = page.locator('label:has(input[type="file"][capture="environment"])');

    await page.goto(server.url);
    await page.getByLabel("Coupon in hand").fill("3");
    expect(await tapsToCamera(page, [page.getByRole("button", { name: "Look at it" }), camera])).toBe(2);
    await page.goto(`${server.url}c/${trial.slice(0, 8)}/3`);
    expect(await tapsToCamera(page, [camera])).toBe(1);
    await page.goto(server.url);
    expect(await tapsToCamera(page, [page.getByRole("link", { name: /^Look at/ }).first(), camera])).toBe(2);
  });
});

/** How many of these it took until the device's camera was asked for. Each is large enough for a glove, and in the window as it stands. */
async function tapsToCamera(page: Page, targets: ReturnType<Page["locator"]>[]): Promise<number> {
  let asked = false;
  page.once("filechooser", () => {
    asked = true;
  });
  for (const [at, target] of targets.entries()) {
    await target.waitFor();
    const box = (await target.boundingBox())!;
    expect(box.height, (await target.textContent()) ?? "").toBeGreaterThanOrEqual(smallestPx);
    const { height } = page.viewportSize()!;
    expect(box.y + box.height, "without scrolling").toBeLessThanOrEqual(height);
    await target.click();
    await expect.poll(() => asked || at < targets.length - 1).toBe(true);
    if (asked) return at + 1;
  }
  return Number.NaN;
}
