/** The measuring card as the page gives it to a printer: read with the program's own eye, it is to scale. */
import { readFile } from "node:fs/promises";
import sharp from "sharp";
import { describe, expect, onTestFinished, test } from "vitest";
import { findCard } from "../src/core/vision/find-card.ts";
import { stretchAt } from "../src/core/vision/homography.ts";
import { builtServer, desk, foundBrowser, openBrowser, openPage } from "./page-browser.ts";
import { temporaryFolder } from "./temporary-folder.ts";

const mmPerInch = 25.4;
const pxPerMm = 8;

describe.runIf(foundBrowser.advice === null)("the measuring card", () => {
  test("saved as SVG it is the size of its paper, and its card the size it says", { timeout: 60_000 }, async () => {
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
      const drawn = await sharp(sheet, { density: pxPerMm * mmPerInch })
        .flatten({ background: "#fff" })
        .toColourspace("srgb")
        .raw()
        .toBuffer({ resolveWithObject: true });
      const photo = { widthPx: drawn.info.width, heightPx: drawn.info.height, rgb: new Uint8Array(drawn.data) };
      expect(Math.abs(photo.widthPx - widthMm * pxPerMm)).toBeLessThanOrEqual(1);
      expect(Math.abs(photo.heightPx - heightMm * pxPerMm)).toBeLessThanOrEqual(1);
      const found = findCard(photo, 1)!;
      expect(found.card.name).toBe(card);
      expect(found.markers).toHaveLength(4);
      const { most, least } = stretchAt(found.toPicture, [found.card.widthMm / 2, found.card.heightMm / 2]);
      for (const stretch of [most, least]) expect(stretch / pxPerMm).toBeCloseTo(1, 2);
    }
    expect(faults).toEqual([]);
  });
});
