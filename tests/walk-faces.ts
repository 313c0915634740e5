/** A coupon over time, two dates laid over each other; and photographs beside their treatments only once the trial is closed. */
import { expect } from "vitest";
import type { Measurement } from "../src/api/photo.ts";
import type { Looked, Page } from "./page-browser.ts";
import { daysAgo, photoTrial } from "./photo-trial.ts";

/** Names of the trial's treatments, as words of their own. */
const treatments = /\b(oil|wax)\b/;

export async function compareFaces(page: Page, url: string, looked: Looked): Promise<void> {
  const trial = await photoTrial(url);
  const early = await trial.look("1", daysAgo(14), 0);
  await trial.look("1", daysAgo(3), 6);
  await trial.look("3", daysAgo(3), 2);
  await blindEverywhere(page, `${url}trials/${trial.id}`, early);

  await page.goto(`${url}trials/${trial.id}`);
  const cell = page
    .locator("#looks")
    .getByRole("button", { name: /^Coupon 1, front/ })
    .last();
  await cell.click();
  await page.getByRole("link", { name: "This coupon over time" }).click();
  await page.getByText("2 photographs, the oldest first.").waitFor();
  const multiples = page.locator(".face-multiples li");
  expect(await multiples.count()).toBe(2);
  expect(await multiples.first().textContent()).toMatch(/^0 %/);
  expect(await multiples.first().locator("small [aria-hidden]").textContent()).toMatch(/^0–0\.\d+ %, D610 10–\d$/);
  expect(await page.getByText("Small below a percentage").count()).toBe(1);
  await looked("face-over-time");

  const slider = page.getByRole("slider", { name: "Where the line stands" });
  await slider.evaluate((element) => element.scrollIntoView({ block: "end", behavior: "instant" }));
  await page.getByText(/by their measuring cards/).waitFor();
  await slider.press("Home");
  const newer = page.locator(".laid-pictures img").nth(1);
  const shown = () => newer.evaluate((image: HTMLElement) => image.style.clipPath);
  expect(await shown()).toBe("inset(0px 0px 0px 0%)");
  const box = (await slider.boundingBox())!;
  await page.mouse.click(box.x + box.width * 0.5, box.y + box.height / 2);
  expect(await shown()).toMatch(/0px (49|50|51)%\)/);
  for (const picture of await page.locator(".laid-pictures img").all())
    expect(
      await picture.evaluate((image: HTMLImageElement) => image.decode().then(() => image.naturalWidth)),
    ).toBeGreaterThan(0);
  await looked("laid-over");

  await page.goto(`${url}trials/${trial.id}/faces`);
  await page.getByRole("heading", { name: "once the trial is closed" }).waitFor();
  await looked("faces-blind");
  await trial.observe({ kind: "unblinding" });
  await page.goto(`${url}trials/${trial.id}`);
  await page.getByRole("link", { name: "All faces side by side" }).click();
  await page.getByRole("heading", { name: /^Every finish on / }).waitFor();
  await page.getByRole("heading", { name: "wax" }).waitFor();
  expect(await page.locator(".face-multiples img").count()).toBe(2);
  await page.getByLabel("Date").selectOption(daysAgo(14));
  await page.getByText("no photograph").first().waitFor();
  await looked("faces");
}

/** Before the trial is closed no page of photographs names a treatment. */
async function blindEverywhere(page: Page, trial: string, { id }: Measurement): Promise<void> {
  const pages = [
    { address: `${trial}/inspect/1`, part: "main" },
    { address: `${trial}/coupons/1`, part: "main" },
    { address: `${trial}/faces`, part: "main" },
    { address: `${trial}/reading`, part: "main" },
    { address: `${trial}/reading/${id}`, part: "main" },
    { address: `${trial}/photographs`, part: "main" },
    { address: trial, part: "#looks" },
  ];
  for (const { address, part } of pages) {
    await page.goto(address);
    await page.locator(part).locator("h1, h2").first().waitFor();
    await page.waitForLoadState("networkidle");
    expect(await page.locator(part).innerHTML(), address).not.toMatch(treatments);
  }
}
