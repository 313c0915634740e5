/** Photographs that are read in the shop, taken out of its reach: a tape test's two and a finish colour's, recorded with them. */
import { randomUUID } from "node:crypto";
import { expect } from "vitest";
import type { TrialDocument } from "../src/api/shop.ts";
import { trialRecord } from "../src/core/trial/trial-record.ts";
import type { Page } from "./page-browser.ts";
import { photoPlan } from "./photo-trial.ts";
import { shedDraft } from "./test-server.ts";
import { colourPhoto } from "./walk-colour.ts";
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
  await tests.getByLabel("Coupon", { exact: true }).filter({ visible: true }).selectOption("1");
  await tests.locator("summary", { hasText: "Photographs" }).click();
  for (const which of ["before", "after"] as const) {
    const frame = await photographCut(tests, folder, which);
    // From the device itself: the shop has no byte of it.
    await expect.poll(() => frame.locator("img").evaluate((image: HTMLImageElement) => image.naturalWidth)).toBe(900);
    await setRings(page, frame, rendered[which]);
  }
  await tests.getByLabel(/3B/).check({ force: true });
  await tests.getByText("photographs will be read when the shop is reached").waitFor();
  await tests.getByText("Write it down").filter({ visible: true }).click();
  await page.getByRole("link", { name: "4 waiting" }).waitFor();
  await tests.locator("summary", { hasText: "Write down a tape test" }).click();

  await tests.locator("summary", { hasText: "Read a finish colour" }).click();
  await tests.getByLabel("Coupon", { exact: true }).filter({ visible: true }).selectOption("2");
  const photo = { name: "2.jpg", mimeType: "image/jpeg", buffer: await colourPhoto(0) };
  await tests.locator('label:has-text("Photograph it on the card") input').setInputFiles(photo);
  await tests.getByText("the photograph will be read when the shop is reached").waitFor();
  await tests.getByRole("button", { name: "Keep this colour" }).click();
  await page.getByRole("link", { name: "6 waiting" }).waitFor();
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
