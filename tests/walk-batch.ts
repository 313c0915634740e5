/**
 * Several photographs at once: coupons by file name or asked, progress, a refusal in words, a stop, a page opened anew before and after
 * the work, and the looks written down for the day on which each photograph was taken.
 */
import { mkdir, writeFile } from "node:fs/promises";
import { join } from "node:path";
import sharp from "sharp";
import { expect } from "vitest";
import { trialRecord } from "../src/core/trial/trial-record.ts";
import type { Looked, Page } from "./page-browser.ts";
import { cardPhoto, daysAgo, photoTrial } from "./photo-trial.ts";
import { temporaryFolder } from "./temporary-folder.ts";

export async function takeMany(page: Page, url: string, looked: Looked): Promise<void> {
  const trial = await photoTrial(url);
  await page.goto(`${url}trials/${trial.id}`);
  await page.getByRole("link", { name: "Many photographs at once" }).click();
  await page.getByText("Choose photographs").waitFor();
  await looked("batch-start");

  const files = await filesToChoose();
  const choose = () => page.locator('input[type="file"]').setInputFiles(files);
  await choose();
  const go = page.getByRole("button", { name: /^Measure \d photographs/ });
  expect(await page.getByLabel("Coupon on coupon-1.jpg").inputValue()).toBe("1");
  expect(await page.getByLabel("Coupon on IMG_4711.jpg").inputValue(), "a camera's own number is asked").toBe("");
  expect(await go.isDisabled()).toBe(true);
  await page.getByText("3 photographs to be settled first.").waitFor();
  await page.getByLabel("Coupon on IMG_4711.jpg").selectOption("2");
  await page.locator(".batch-row", { hasText: "1 again.jpg" }).getByRole("button", { name: "Leave out" }).click();
  await looked("batch-settled");

  // Opened anew before the work began: nothing has to be chosen again, and what was settled stays settled.
  await page.getByText("Keep this page open").waitFor({ state: "detached" });
  await page.reload();
  await page.locator(".batch-row").nth(4).waitFor();
  expect(await page.getByText("Choose the same files again").count()).toBe(0);
  await choose();
  expect(await page.locator(".batch-row").count()).toBe(5);
  expect(await page.getByLabel("Coupon on IMG_4711.jpg").inputValue()).toBe("2");
  await page.getByRole("button", { name: "Measure 3 photographs" }).click();
  await page.getByText("Say that they are dry and wiped").waitFor();
  await page.getByText("All are dry and wiped").click();

  // Stopped at once and taken up again: what was stopped is as if it had never begun.
  await page.getByRole("button", { name: "Measure 3 photographs" }).click();
  await page.getByRole("button", { name: "Stop" }).click();
  await page.getByRole("button", { name: /^(Measure|Go on with) \d photograph/ }).click();
  await page
    .getByRole("heading", { name: "2 of 4 photographs measured, 2 not good enough." })
    .waitFor({ timeout: 60_000 });
  await page.getByText("No measuring card was found").waitFor();
  await page.getByText("Stored as HEIC").waitFor();
  await looked("batch-measured");

  // Opened anew after it: all is there without a hand, and the same files are no new photographs.
  await page.reload();
  await page.getByRole("heading", { name: "2 of 4 photographs measured, 2 not good enough." }).waitFor();
  await choose();
  expect(await page.locator(".batch-row").count()).toBe(5);
  expect(await page.getByLabel("Taken on, by the photograph").inputValue()).toBe(daysAgo(3));

  await page.getByLabel("Your name").fill("Ines");
  await page.getByRole("button", { name: "Write down 2 looks" }).click();
  await page.getByText("Written down for").nth(1).waitFor();
  const document = await (await fetch(`${url}api/trials/${trial.id}`)).json();
  const { looks } = trialRecord(document, document.observations);
  const written = looks.map(({ body: { coupon, face, how, blind, when } }) => ({ coupon, face, how, blind, ...when }));
  expect(written.sort((a, b) => a.coupon.localeCompare(b.coupon))).toEqual([
    { coupon: "1", face: "front", how: "photo", blind: true, date: daysAgo(3) },
    { coupon: "2", face: "front", how: "photo", blind: true, date: daysAgo(0) },
  ]);
  await looked("batch-written");
  await page.reload();
  await page.getByText("Written down for").nth(1).waitFor();
  await page.getByRole("button", { name: "Put this list away" }).click();
  await page.reload();
  await page.getByText("Choose photographs").waitFor();
  expect(await page.locator(".batch-row").count()).toBe(0);
}

/** On disk, as a card reader has them; the first says when it was taken. */
async function filesToChoose(): Promise<string[]> {
  const folder = join(await temporaryFolder(), "card");
  await mkdir(folder);
  const bench = sharp({ create: { width: 1200, height: 900, channels: 3, background: "#8a7a66" } });
  const taken = { IFD2: { DateTimeOriginal: `${daysAgo(3).replaceAll("-", ":")} 09:30:00` } };
  const contents: [string, Buffer][] = [
    [
      "coupon-1.jpg",
      await sharp(await cardPhoto(6))
        .withExif(taken)
        .jpeg({ quality: 92 })
        .toBuffer(),
    ],
    ["IMG_4711.jpg", await cardPhoto(0)],
    ["3.jpg", await bench.jpeg().toBuffer()],
    ["4.heic", Buffer.from("\0\0\0\x24ftypheic\0\0\0\0mif1heic", "latin1")],
    ["1 again.jpg", await cardPhoto(0)],
  ];
  await Promise.all(contents.map(([name, content]) => writeFile(join(folder, name), content)));
  return contents.map(([name]) => join(folder, name));
}
