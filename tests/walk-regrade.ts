/** A trial's photographs graded again by eye, twice: to the agreement with the measured areas and against the first pass. */
import { expect } from "vitest";
import type { Looked, Page } from "./page-browser.ts";
import { daysAgo, photoTrial } from "./photo-trial.ts";
import { trialNow } from "./walk-wear.ts";

const rusted = { "1": 0.6, "2": 3, "3": 8, "4": 20 } as const;

export async function gradeAgain(page: Page, url: string, looked: Looked): Promise<void> {
  const { id, look } = await photoTrial(url);
  for (const [coupon, percent] of Object.entries(rusted)) await look(coupon, daysAgo(7), percent);
  await page.goto(`${url}trials/${id}`);
  await page.getByRole("link", { name: /by eye/ }).click();
  await page.getByText("After two photographs it stands here.").waitFor();
  await page.getByLabel("Your name").fill("Ines");
  await looked("regrade-start");
  for (const pass of [1, 2]) {
    await page.getByRole("button", { name: `Start pass ${pass}: 4 photographs` }).click();
    for (let at = 1; at <= 4; at++) {
      await page.getByText(`Photograph ${at} of 4`).waitFor();
      expect(await page.getByText(/oil|wax/).count(), "no treatment beside a photograph").toBe(0);
      if (at === 2 && pass === 1) await looked("regrade-photo");
      for (const key of ["0.5", "3", "9", "25"][at - 1]!)
        await page.getByRole("button", { name: key, exact: true }).click();
      await page.getByText("That is my answer").click();
    }
    await page.getByRole("heading", { name: "Ines against the measured areas" }).waitFor();
  }
  await page.getByRole("heading", { name: "Ines against an earlier pass" }).waitFor();
  await page
    .getByText(/^Same D610 grade on \d of 4 photographs, within one grade on \d\.$/)
    .first()
    .waitFor();
  await page.getByText("Quadratic kappa stands here from 10 photographs on: 6 more to grade.").first().waitFor();
  await page.getByRole("heading", { name: "Ines against the measured areas" }).scrollIntoViewIfNeeded();
  await looked("regrade-agreement");
  expect((await trialNow(url, id)).photoGradings).toHaveLength(8);
}
