/** A notebook becomes a trial in the page: decimal commas are understood, a date that reads two ways is asked about. */
import { expect } from "vitest";
import type { Looked, Page } from "./page-browser.ts";

const looksOf = (coupon: number) => {
  const oiled = coupon > 4;
  const row = (date: string, percent: string) => `${coupon};${oiled ? "oiled" : "waxed"};${date};${percent}`;
  return [row("03/04/2026", "0"), row("10/04/2026", oiled ? "0,5" : "0"), row("11/04/2026", "1,5")];
};
const notebook = ["coupon;treatment;date;rusted_percent", ...[1, 2, 3, 4, 5, 6, 7, 8].flatMap(looksOf)].join("\n");

export async function bringNotebook(page: Page, url: string, looked: Looked): Promise<void> {
  await page.goto(`${url}import`);
  await page.getByLabel("The table").fill(notebook);
  await page.getByText("Decimals are written with a comma.").waitFor();
  const make = page.getByRole("button", { name: "Make a trial of it" });
  const dates = page.getByLabel(/^03\/04\/2026 can be/);
  await dates.waitFor();
  expect(await make.isDisabled(), "a date that reads two ways is not guessed").toBe(true);
  await looked("import-asks");

  await dates.selectOption({ label: "day, month, year" });
  await page.locator("h1", { hasText: "24 rows understood: 8 coupons, 2 treatments" }).waitFor();
  await page.getByLabel("Which treatment are the others").selectOption("oiled");
  for (const [label, typed] of [
    ["Coupon length", "150"],
    ["Coupon width", "100"],
    ["Thickness", "3"],
    ["Edge band", "5"],
    ["A short name", "notebook"],
    ["Your name", "Ines"],
  ] as const)
    await page.getByLabel(label).fill(typed);
  await make.click();
  await page.getByText("Open the trial").click();
  await page.locator(".fig-finding h4").first().waitFor({ timeout: 30_000 });
  expect(await page.locator(".fig-finding").first().textContent()).toMatch(/waxed against oiled|waxed beat oiled/i);
  // 4 against 4, wholly apart: the day between 3 and 10 April against the day between 10 and 11.
  await looked("import-findings");
  await bringStrokes(page, url, looked);
}

const strokes = [
  "coupon,treatment,left_strokes,right_strokes,cloth",
  ...["1,dry,10,20,a", "2,dry,20,30,a", "3,dry,10,20,b", "4,dry,20,30,b"],
  ...["5,waxed,60,80,a", "6,waxed,80,,a", "7,waxed,60,80,b", "8,waxed,40,60,b"],
].join("\n");

/** Strokes are kept too, and are corrected where they stand. */
async function bringStrokes(page: Page, url: string, looked: Looked): Promise<void> {
  await page.goto(`${url}import`);
  await page.getByLabel("The table").fill(strokes);
  await page.getByText("Strokes: one row for each coupon").waitFor();
  await page.getByLabel("cloth").check();
  await page.getByLabel("Which treatment are the others").selectOption("dry");
  await page.getByText("times as many").waitFor();
  for (const [label, typed] of [
    ["Coupon length", "150"],
    ["Coupon width", "100"],
    ["Thickness", "3"],
    ["Edge band", "0"],
    ["A short name", "rubbing"],
  ] as const)
    await page.getByLabel(label).fill(typed);
  await looked("import-strokes");
  await page.getByRole("button", { name: "Make a trial of it" }).click();
  await page.getByText("Open the trial").click();
  const finding = page.locator(".fig-finding").first();
  await finding.waitFor({ timeout: 30_000 });
  expect(await finding.textContent()).toMatch(/waxed .*dry/i);
  await page.locator("h1", { hasText: "8 coupons. 8 wear tests written down." }).waitFor();
  await page.getByText("Wear tests: 8 coupons").click();
  await page.getByText("Coupon 6: not yet at 80 strokes").waitFor();

  const six = page.locator("#tests li.record", { hasText: "Coupon 6:" });
  await six.getByText("Correct this").click();
  await six.getByLabel("Still whole after").fill("90");
  await six.getByLabel("Why is it corrected?").fill("counted again");
  await six.getByRole("button", { name: "Write it down" }).click();
  await page.getByText("Coupon 6: not yet at 90 strokes").waitFor();
  await looked("import-strokes-trial");
}
