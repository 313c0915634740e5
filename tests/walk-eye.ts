/** An eye is practised, then tested on twenty plates blind; its agreement with the true areas stands there in words. */
import { expect } from "vitest";
import { platePercent, plateSeries } from "../src/core/rating/rust-plate.ts";
import type { Looked, Page } from "./page-browser.ts";

export async function testEye(page: Page, url: string, looked: Looked): Promise<void> {
  await page.goto(`${url}eye`);
  await page.getByText("Nobody was tested yet.").waitFor();
  await looked("eye-start");
  await page.getByText("Practise", { exact: true }).click();
  await type(page, "1.5");
  await page.getByText("That is my answer").click();
  await page.getByText(/^True: .* You said 1\.5 %\./).waitFor();
  await page.getByText("Show what counts as rust").click();
  await looked("eye-practice");
  await page.getByText("Stop", { exact: true }).click();

  await page.getByText("Test: 20 plates, blind").click();
  const seed = await page.evaluate(() => {
    const kept = Object.keys(localStorage).find((key) => key.includes("draft eye test"));
    return kept === undefined ? null : (JSON.parse(localStorage.getItem(kept)!).seed as number);
  });
  await looked("eye-plate");
  // An eye that sees twice the rust there is, up to 100 %.
  expect(seed, "the draw is kept from the first plate on").not.toBeNull();
  const truths = plateSeries(seed!).map(platePercent);
  for (const [at, truth] of truths.entries()) {
    await page.getByText(`Plate ${at + 1} of 20`).waitFor();
    if (at === 7) {
      await page.reload();
      await page.getByText("Go on with the test, plate 8").click();
    }
    await type(page, String(Number(Math.min(100, truth * (at % 2 === 0 ? 1.9 : 2.1)).toPrecision(2))));
    await page.getByText("That is my answer").click();
  }
  await page.getByText("All twenty are read.").waitFor();
  await page.getByLabel("Your name").fill("Ines");
  await page.getByText("Write it down and show me").click();
  await page.getByText(/^You read (1\.9|2\.0|2\.1) times too high on small areas/).waitFor();
  await page.getByText(/quadratic weighted kappa 0\.9/).waitFor();
  await page.locator("#eye-results").scrollIntoViewIfNeeded();
  await looked("eye-result");
  const kept = await (await fetch(`${url}api/eye-tests`)).json();
  expect(kept).toMatchObject([{ by: "Ines", way: "percent", seed, truePercents: truths }]);
}

async function type(page: Page, text: string): Promise<void> {
  for (const key of text) await page.getByRole("button", { name: key, exact: true }).click();
}
