/** A second photograph of a coupon on its card: compared with the first, then measured again without a hole and a corner. */
import sharp from "sharp";
import { expect } from "vitest";
import type { Measurement } from "../src/api/photo.ts";
import type { Looked, Page } from "./page-browser.ts";
import { cardPhoto, daysAgo, photoTrial } from "./photo-trial.ts";

export async function leavePlacesOut(page: Page, url: string, looked: Looked): Promise<void> {
  const trial = await photoTrial(url);
  const first = await trial.look("1", daysAgo(14), 0);
  await page.goto(`${url}trials/${trial.id}/inspect/1`);

  // HEIC is told before a byte of it is sent.
  const asked: string[] = [];
  page.on("request", (request) => request.method() === "POST" && asked.push(request.url()));
  const picture = page.locator('input[type="file"]').first();
  const heic = Buffer.from("\0\0\0\x24ftypheic\0\0\0\0mif1heic", "latin1");
  await picture.setInputFiles({ name: "IMG_0007.HEIC", mimeType: "image/heic", buffer: heic });
  await page.getByText("stored as HEIC").waitFor();
  expect(asked).toEqual([]);
  await looked("heic");

  // A refused one leaves the camera one press away.
  const tooDark = await sharp(await cardPhoto(6))
    .linear(0.25, 0)
    .jpeg()
    .toBuffer();
  await picture.setInputFiles({ name: "1.jpg", mimeType: "image/jpeg", buffer: tooDark });
  await page.getByRole("button", { name: "Dry and wiped" }).click();
  await page.getByText("It is not rated.").waitFor({ timeout: 40_000 });
  await page.getByText("Take a photograph").waitFor();
  await looked("refused");

  await picture.setInputFiles({ name: "1.jpg", mimeType: "image/jpeg", buffer: await cardPhoto(6) });
  await page.getByText("Looks right").waitFor({ timeout: 40_000 });
  await page.getByText(/^Since the first photograph, /).waitFor();
  const came = page.locator(".since-percent");
  expect(Number.parseFloat((await came.textContent())!)).toBeGreaterThan(1);
  await page.getByText(/coarser than the percentage/).waitFor();
  await came.evaluate((element) => element.scrollIntoView({ block: "center", behavior: "instant" }));
  await looked("since-first");

  // Dated before the first one after all, and measured again so; then today's date again.
  const date = page.getByLabel("Date of the look");
  await date.fill(daysAgo(20));
  await page.getByText(/none of this face's photographs on the card is older/).waitFor();
  const before = await unroundedRating(page);
  await page.getByRole("button", { name: "Leave places out" }).click();
  await markPlaces(page, looked);
  await page.getByRole("button", { name: "Measure with this" }).click();
  await page.getByText("Left out: 2 places, all outside the outline.").waitFor({ timeout: 40_000 });
  await page.getByText(/^This is the first photograph/).waitFor();
  await date.fill(daysAgo(0));
  await page.getByText(/its look had another date, or that one was not there yet/).waitFor();
  await looked("not-compared");
  await page.getByRole("button", { name: "Leave places out" }).click();
  await page.getByRole("button", { name: "Measure with this" }).click();
  await page.getByText(/^Since the first photograph, /).waitFor({ timeout: 40_000 });
  expect(await unroundedRating(page)).not.toBe(before);
  await page.getByText(/^Contact point 1: [\d.]+ % rusted within 12 mm across\.$/).waitFor();
  await looked("left-out");
  const yourName = page.getByLabel("Your name");
  if (await yourName.isVisible()) await yourName.fill("Ines");
  await page.getByRole("button", { name: /^Looks right/ }).click();
  await page.waitForURL(/inspect\/[234]$/);

  const trialNow = await (await fetch(`${url}api/trials/${trial.id}`)).json();
  const second = trialNow.measurements.find((one: Measurement) => one.id !== first.id) as Measurement;
  expect(second.request.first).toBe(first.id);
  expect(second.request.hiddenMm).toHaveLength(2);
  expect(second.request.outlineMm).toHaveLength(5);
  expect(second.request.contactsMm).toMatchObject([{ radiusMm: 6 }]);
  expect(second.assessedAreaMm2).toBeLessThan(first.assessedAreaMm2);
  expect(second.rustSince?.overlay).toMatch(/^[0-9a-f]{64}$/);
  await likeTheLast(page);
}

async function markPlaces(page: Page, looked: Looked): Promise<void> {
  const board = page.locator(".places-picture");
  await board.waitFor();
  await board.evaluate((element) => element.scrollIntoView({ block: "center", behavior: "instant" }));
  const at = async (across: number, down: number) => {
    const box = (await board.boundingBox())!;
    return { x: box.x + across * box.width, y: box.y + down * box.height };
  };
  const middle = await at(0.5, 0.2);
  await page.mouse.click(middle.x, middle.y);
  await page.getByText("1 place left out.").waitFor();
  await page.getByRole("button", { name: "Across: larger" }).click();
  await page.getByText("Across 7 mm").waitFor();
  // Dragged to the other end, then back by undo.
  const to = await at(0.8, 0.8);
  await page.mouse.move(middle.x, middle.y);
  await page.mouse.down();
  await page.mouse.move(to.x, to.y, { steps: 4 });
  await page.mouse.up();
  const ring = page.getByRole("button", { name: /^Place 1:/ });
  const shareAcross = () => ring.evaluate((element) => Number.parseFloat((element as HTMLElement).style.left));
  expect(await shareAcross()).toBeCloseTo(80, 0);
  await page.getByRole("button", { name: "Undo" }).click();
  expect(await shareAcross()).toBeCloseTo(50, 0);

  // The stamp as a box, without a pointer.
  await page.getByLabel("box", { exact: true }).check({ force: true });
  await page.getByRole("button", { name: "Box in the middle" }).press("Enter");
  const box = page.getByRole("button", { name: /^Place 2:/ });
  await box.focus();
  for (const key of ["Shift+ArrowLeft", "Shift+ArrowLeft", "ArrowUp", "+", "+"]) await page.keyboard.press(key);
  await page.getByText("Long 14 mm").waitFor();
  await looked("places");

  await page.getByLabel("outline", { exact: true }).check({ force: true });
  await page.getByRole("button", { name: "Begin with the rectangle" }).click();
  const cut = await at(0.9, 0.97);
  await page.mouse.click(cut.x, cut.y);
  await page.getByText("2 places left out; an outline of 5 corners.").waitFor();
  await looked("outline");

  // Where it stood on the rack.
  await page.getByLabel("contact point", { exact: true }).check({ force: true });
  const rack = await at(0.3, 0.95);
  await page.mouse.click(rack.x, rack.y);
  for (const mm of [11, 12]) {
    await page.getByRole("button", { name: "Across: larger" }).click();
    await page.getByText(`Across ${mm} mm`).waitFor();
  }
  await page.getByText("2 places left out; an outline of 5 corners; 1 contact point.").waitFor();
  await looked("contacts");
}

/** The next coupon is offered the same places once it was measured. */
async function likeTheLast(page: Page): Promise<void> {
  const picture = page.locator('input[type="file"]').first();
  await picture.setInputFiles({ name: "2.jpg", mimeType: "image/jpeg", buffer: await cardPhoto(0) });
  await page.getByText("Looks right").waitFor({ timeout: 40_000 });
  await page.getByText("This is the first photograph of this face").waitFor();
  await page.getByRole("button", { name: "Leave places out" }).click();
  await page.getByRole("button", { name: "As on the last coupon" }).click();
  await page.getByText("2 places left out; an outline of 5 corners; 1 contact point.").waitFor();
}

const unroundedRating = (page: Page) => page.locator(".grades > div", { hasText: "unrounded" }).textContent();
