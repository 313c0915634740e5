/** An eye tested by grade: twenty plates on the keypad of grades, and its agreement in words. */
import { expect } from "vitest";
import { d610Grade } from "../src/core/rating/d610-grade.ts";
import { platePercent, plateSeries } from "../src/core/rating/rust-plate.ts";
import type { Looked, Page } from "./page-browser.ts";

export async function testEyeByGrade(page: Page, url: string, looked: Looked): Promise<void> {
  await page.goto(`${url}eye`);
  await page.getByLabel("D610 grade").check({ force: true });
  await page.getByText("Test: 20 plates, blind").click();
  const seed = await page.evaluate(() => {
    const kept = Object.keys(localStorage).find((key) => key.includes("draft eye test"));
    return kept === undefined ? null : (JSON.parse(localStorage.getItem(kept)!).seed as number);
  });
  expect(seed, "the draw is kept from the first plate on").not.toBeNull();
  for (const [at, truth] of plateSeries(seed!).map(platePercent).entries()) {
    await page.getByText(`Plate ${at + 1} of 20`).waitFor();
    // One grade too severe at every second plate.
    const grade = Math.max(0, d610Grade(truth) - (at % 2));
    await page.locator(".eye-keys button", { hasText: new RegExp(`^${grade} `) }).click();
    if (at === 1) {
      await looked("eye-grade-plate");
      await page.locator(".eye-keys").scrollIntoViewIfNeeded();
      await looked("eye-grade-keys");
    }
    await page.getByText("That is my answer").click();
  }
  await page.getByText("All twenty are read.").waitFor();
  await page.getByLabel("Your name").fill("Ines");
  await page.getByText("Write it down and show me").click();
  await page.getByText(/quadratic weighted kappa 0\.9/).waitFor();
  expect(await page.getByLabel("D610 grade").isChecked(), "the next test is given as this one").toBe(true);
  await page.locator("#eye-results").scrollIntoViewIfNeeded();
  await looked("eye-grade-result");
}
