/**
 * What two devices wrote down differently, on a phone: one line while a look is due, so that the look stays within reach, and
 * both readings to choose from once it is opened.
 */
import { randomUUID } from "node:crypto";
import { describe, expect, onTestFinished, test } from "vitest";
import type { DueToday } from "../src/api/shop.ts";
import { builtServer, foundBrowser, openBrowser, openPage } from "./page-browser.ts";
import { temporaryFolder } from "./temporary-folder.ts";
import { trialOutdoors } from "./trial-outdoors.ts";

describe.runIf(foundBrowser.advice === null)("readings on which two devices differ", () => {
  test("leave the look that is due in sight, and both are offered once the line is opened", {
    timeout: 60_000,
  }, async () => {
    const server = await builtServer(await temporaryFolder());
    onTestFinished(() => server.close());
    const trial = await trialOutdoors(server.url);
    const browser = await openBrowser();
    onTestFinished(() => browser.close());
    const { page, faults, looked } = await openPage(browser, { width: 390, height: 844, colorScheme: "dark" });
    await page.route("**/api/today", async (route) => {
      const answer = await route.fetch();
      const differing = ["1", "2"].map((coupon) => differ(trial, coupon));
      await route.fulfill({ response: answer, json: { ...((await answer.json()) as DueToday), differing } });
    });
    await page.goto(server.url);
    const line = page.getByText("Two devices differ on 2 readings: say which stands");
    await line.waitFor();
    const look = (await page
      .getByRole("link", { name: /^Look at/ })
      .first()
      .boundingBox())!;
    expect(look.y + look.height, "the look due, without scrolling").toBeLessThanOrEqual(844);
    const stands = page.getByRole("button", { name: /10 to 40 strokes \(Ines/ });
    expect(await stands.first().isVisible()).toBe(false);

    await line.click();
    expect(await stands.count()).toBe(2);
    for (const button of await stands.all()) expect((await button.boundingBox())!.height).toBeGreaterThanOrEqual(56);
    await looked("devices-differ");
    expect(faults).toEqual([]);
  });
});

/** As the shop tells it; how two paired devices come to it is tried beside the shop's answer for today. */
function differ(trial: string, coupon: string): NonNullable<DueToday["differing"]>[number] {
  const said = (by: string, reading: string) => ({
    id: randomUUID(),
    by,
    reading,
    writtenAt: new Date().toISOString(),
  });
  return {
    trial: { id: trial, name: "Shed, two finishes" },
    what: `wear test on the edge of coupon ${coupon}`,
    when: { date: "2026-05-03" },
    counts: said("Ada", "10 to 20 strokes"),
    differs: said("Ines", "10 to 40 strokes"),
  };
}
