/** The measuring card as the page gives it to a printer: read with the program's own eye, it is to scale. */
import { readFile } from "node:fs/promises";
import sharp from "sharp";
import { describe, expect, onTestFinished, test } from "vitest";
import { findCard } from "../src/core/vision/find-card.ts";
import { stretchAt } from "../src/core/vision/homography.ts";
import { builtServer, desk, foundBrowser, openBrowser, openPage } from "./page-browser.ts";
import { temporaryFolder } from "./temporary-folder.ts";

const pxPerMm = 8;

describe.runIf(foundBrowser.advice === null)("the measuring card", () => {
  test("saved as SVG it is the size of its paper, and its card the size it says", { timeout: 120_000 }, async () => {
    const server = await builtServer(await temporaryFolder());
    onTestFinished(() => server.close());
    const browser = await openBrowser();
    onTestFinished(() => browser.close());
    const { page, faults } = await openPage(browser, desk);
    await page.goto(`${server.url}card`);
    for (const [paper, card, widthMm, heightMm] of [
      ["A4", "small", 210, 297],
      ["Letter", "large", 215.9, 279.4],
    ] as const) {
      await page.getByLabel("Card, for coupons").selectOption(card);
      await page.getByLabel("Paper").selectOption(paper);
      const download = page.waitForEvent("download");
      await page.getByRole("button", { name: "Save it as SVG" }).click();
      const saved = await download;
      expect(saved.suggestedFilename()).toBe(`measuring card ${card} ${paper}.svg`);
      const sheet = await readFile((await saved.path())!);
      expect(sheet.toString()).toMatch(
        new RegExp(`^<svg [^>]*width="${widthMm}mm" height="${heightMm}mm" viewBox="0 0 ${widthMm} ${heightMm}"`),
      );
      const { data, info } = await sharp(sheet)
        .resize({ width: Math.round(widthMm * pxPerMm) })
        .flatten({ background: "#fff" })
        .toColourspace("srgb")
        .raw()
        .toBuffer({ resolveWithObject: true });
      const photo = { widthPx: info.width, heightPx: info.height, rgb: new Uint8Array(data) };
      const found = findCard(photo, 1)!;
      expect(found.card.name).toBe(card);
      expect(found.markers).toHaveLength(4);
      const { most, least } = stretchAt(found.toPicture, [found.card.widthMm / 2, found.card.heightMm / 2]);
      for (const stretch of [most, least]) expect(stretch / pxPerMm).toBeCloseTo(1, 2);
    }
    expect(faults).toEqual([]);
  });
});
