/** Photographs that are read in the shop, taken out of its reach: a tape test's two and a finish colour's, recorded with them. */
import { randomUUID } from "node:crypto";
import { writeFile } from "node:fs/promises";
import { join } from "node:path";
import sharp from "sharp";
import { expect } from "vitest";
import type { TrialDocument } from "../src/api/shop.ts";
import { trialRecord } from "../src/core/trial/trial-record.ts";
import type { Page } from "./page-browser.ts";
import { photoPlan } from "./photo-trial.ts";
import type { RenderedCard } from "./rendered-card.ts";
import { shedDraft } from "./test-server.ts";
import { asJpeg, colourPhoto, colourScene } from "./walk-colour.ts";
import { photographCut, renderedPair, setRings } from "./walk-tape.ts";

export async function trialToPhotograph(url: string): Promise<string> {
  const id = randomUUID();
  const made = await fetch(`${url}api/trials`, {
    method: "POST",
    headers: { "content-type": "application/json" },
    body: JSON.stringify({ ...shedDraft, draft: photoPlan, id }),
  });
  expect(made.status, await made.text()).toBe(201);
  return id;
}

/** The page stands open on the trial, the shop is away. Six things wait at the end: three photographs, the test by eye, and what is to be read. */
export async function photographOutOfReach(page: Page): Promise<void> {
  const tests = page.locator("#tests");
  await tests.locator("summary", { hasText: "Write down a tape test" }).click();
  const { rendered, folder } = await renderedPair();
  await sharp(join(folder, "after.jpg")).flop().toFile(join(folder, "wrong.jpg"));
  const sideways = await storedSideways(join(folder, "after.jpg"));
  await tests.getByLabel("Coupon", { exact: true }).filter({ visible: true }).selectOption("1");
  await tests.locator("summary", { hasText: "Photographs" }).click();
  // The wrong way round first: of what is taken anew before it was sent, only the last is sent.
  await tests.locator('input[type="file"]').first().setInputFiles(join(folder, "wrong.jpg"));
  await tests.locator(".corner-frame").first().waitFor();
  await page.getByRole("link", { name: "1 waiting" }).waitFor();
  for (const which of ["before", "after"] as const) {
    const frame = await photographCut(tests, folder, which);
    // From the device itself: the shop has no byte of it.
    const { cornersPx, photo } = rendered[which];
    const upright = which === "after" ? sideways : photo;
    const widthPx = () => frame.locator("img").evaluate((image: HTMLImageElement) => image.naturalWidth);
    await expect.poll(widthPx).toBe(upright.widthPx);
    await setRings(page, frame, { photo: upright, cornersPx });
  }
  await tests.getByLabel(/3B/).check({ force: true });
  await tests.getByText("photographs will be read when the shop is reached").waitFor();
  await tests.getByText("Write it down").filter({ visible: true }).click();
  await page.getByRole("link", { name: "4 waiting" }).waitFor();
  await tests.locator("summary", { hasText: "Write down a tape test" }).click();

  await tests.locator("summary", { hasText: "Read a finish colour" }).click();
  await tests.getByLabel("Coupon", { exact: true }).filter({ visible: true }).selectOption("2");
  const photo = { name: "2.jpg", mimeType: "image/jpeg", buffer: await colourPhoto(0, 0) };
  await tests.locator('label:has-text("Photograph it on the card") input').setInputFiles(photo);
  await tests.getByText("the photograph will be read when the shop is reached").waitFor();
  await tests.getByRole("button", { name: "Keep this colour" }).click();
  await page.getByRole("link", { name: "6 waiting" }).waitFor();
}

/**
 * As a phone held upright does: the pixels lie on their side, and a mark says how to turn them (EXIF orientation 6). A strip at
 * the right makes it no square, so that sides taken for each other move the corners. Returns its upright size.
 */
async function storedSideways(path: string): Promise<{ widthPx: number; heightPx: number }> {
  const wider = await sharp(path).extend({ right: 90, background: "#555" }).toBuffer({ resolveWithObject: true });
  const lying = await sharp(wider.data).rotate(270).withMetadata({ orientation: 6 }).jpeg({ quality: 92 }).toBuffer();
  await writeFile(path, lying);
  return { widthPx: wider.info.width, heightPx: wider.info.height };
}

/** The coupon is as pale as the card's paper: where it lies only a person can tell. */
export async function paleColour(page: Page): Promise<RenderedCard> {
  const scene = colourScene(200, 0);
  const tests = page.locator("#tests");
  await tests.locator("summary", { hasText: "Read a finish colour" }).click();
  await tests.getByLabel("Coupon", { exact: true }).filter({ visible: true }).selectOption("2");
  const photo = { name: "2.jpg", mimeType: "image/jpeg", buffer: await asJpeg(scene) };
  await tests.locator('label:has-text("Photograph it on the card") input').setInputFiles(photo);
  await tests.getByText("the photograph will be read when the shop is reached").waitFor();
  await tests.getByRole("button", { name: "Keep this colour" }).click();
  return scene;
}

/** On the waiting page, what could not be read is given its corners there. */
export async function setPaleCorners(page: Page, photo: RenderedCard, seen: () => Promise<void>): Promise<void> {
  await page.getByText("The card was found, but no coupon in its window").waitFor();
  await page.getByRole("button", { name: "Set its corners" }).click();
  const frame = page.locator(".corner-frame");
  await frame.waitFor();
  expect(photo.couponCornersPx).not.toBeNull();
  await setRings(page, frame, { photo, cornersPx: photo.couponCornersPx ?? [] });
  await seen();
  await page.getByRole("button", { name: "Read it with these" }).click();
}

export async function waitsInWords(page: Page): Promise<void> {
  for (const words of [
    "Photograph before the pull, coupon 1",
    "Photograph after the pull, coupon 1",
    "Tape test, coupon 1",
    "Photographs of a tape test, coupon 1: will be read when the shop is reached",
    "Photograph of a finish colour, coupon 2",
    "Finish colour, coupon 2: will be read when the shop is reached",
  ])
    await page.getByText(words, { exact: true }).waitFor();
}

/** Each exactly once: the eye's test corrected by its photographs, the colour with its reading. */
export function readOnce(stored: TrialDocument): void {
  expect(stored.observations.map(({ body }) => body.kind)).toEqual(["plan", "tape test", "tape test", "finish colour"]);
  const { tapeTests, finishColours } = trialRecord(stored, stored.observations);
  expect(tapeTests.map(({ body }) => body)).toMatchObject([
    { coupon: "1", tapeClass: "2B", details: { eyeClass: "3B", counts: "photo" } },
  ]);
  expect(finishColours.map(({ body }) => body)).toMatchObject([
    { coupon: "2", reading: { method: expect.any(String) } },
  ]);
}
