/** Several photographs at once: coupons by file name or asked, progress, a refusal in words, a stop, and the looks written down. */
import sharp from "sharp";
import { expect } from "vitest";
import { trialRecord } from "../src/core/trial/trial-record.ts";
import type { Looked, Page } from "./page-browser.ts";
import { cardPhoto, photoTrial } from "./photo-trial.ts";

export async function takeMany(page: Page, url: string, looked: Looked): Promise<void> {
  const trial = await photoTrial(url);
  await page.goto(`${url}trials/${trial.id}`);
  await page.getByRole("link", { name: "Many photographs at once" }).click();
  await page.getByText("Choose photographs").waitFor();
  await looked("batch-start");

  const bench = await sharp({ create: { width: 1200, height: 900, channels: 3, background: "#8a7a66" } })
    .jpeg()
    .toBuffer();
  const file = (name: string, buffer: Buffer) => ({ name, mimeType: "image/jpeg", buffer });
  await page
    .locator('input[type="file"]')
    .setInputFiles([
      file("coupon-1.jpg", await cardPhoto(6)),
      file("IMG_4711.jpg", await cardPhoto(0)),
      file("3.jpg", bench),
      file("4.heic", Buffer.from("\0\0\0\x24ftypheic\0\0\0\0mif1heic", "latin1")),
      file("1 again.jpg", await cardPhoto(0)),
    ]);
  const go = page.getByRole("button", { name: /^Measure \d photographs/ });
  expect(await page.getByLabel("Coupon on coupon-1.jpg").inputValue()).toBe("1");
  expect(await page.getByLabel("Coupon on IMG_4711.jpg").inputValue(), "a camera's own number is asked").toBe("");
  expect(await go.isDisabled()).toBe(true);
  await page.getByText("3 photographs to be settled first.").waitFor();
  await page.getByLabel("Coupon on IMG_4711.jpg").selectOption("2");
  await page.locator(".batch-row", { hasText: "1 again.jpg" }).getByRole("button", { name: "Leave out" }).click();
  await looked("batch-settled");
  await page.getByRole("button", { name: "Measure 4 photographs" }).click();
  await page.getByText("Say that they are dry and wiped").waitFor();
  await page.getByText("All are dry and wiped").click();

  // Stopped at once and taken up again: what was stopped is as if it had never begun.
  await page.getByRole("button", { name: "Measure 4 photographs" }).click();
  await page.getByRole("button", { name: "Stop" }).click();
  await page.getByRole("button", { name: /^(Measure|Go on with) \d photograph/ }).click();
  await page
    .getByRole("heading", { name: "2 of 4 photographs measured, 2 not good enough." })
    .waitFor({ timeout: 60_000 });
  await page.getByText("No measuring card was found").waitFor();
  await page.getByText("Stored as HEIC").waitFor();
  await looked("batch-measured");

  await page.getByLabel("Your name").fill("Ines");
  await page.getByRole("button", { name: "Write down 2 looks" }).click();
  await page.getByText("Written down.").nth(1).waitFor();
  const document = await (await fetch(`${url}api/trials/${trial.id}`)).json();
  const { looks } = trialRecord(document, document.observations);
  expect(looks.map(({ body }) => `${body.coupon} ${body.face} ${body.how} ${body.blind}`).sort()).toEqual([
    "1 front photo true",
    "2 front photo true",
  ]);
}
