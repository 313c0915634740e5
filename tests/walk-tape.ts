/** A tape test from cut to class at the bench: the eye first, then the two photographs, all kept together. */
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Locator } from "playwright-core";
import sharp from "sharp";
import { expect } from "vitest";
import { trialRecord } from "../src/core/trial/trial-record.ts";
import type { Looked, Page } from "./page-browser.ts";
import { renderTape } from "./rendered-tape.ts";
import { temporaryFolder } from "./temporary-folder.ts";
import { shedDraft } from "./test-server.ts";

const trialId = "6a8f8b54-22d3-4d59-9a44-0f8a4a3d9c21";
/**
 * Taps from "cut" to the class written down, rings included: at three seconds a tap with gloves on, two minutes. Typing a name counts
 * as one; a list as two.
 */
const mostTaps = 40;

export async function readTapeTest(page: Page, url: string, looked: Looked): Promise<void> {
  const made = await fetch(`${url}api/trials`, {
    method: "POST",
    headers: { "content-type": "application/json" },
    body: JSON.stringify({ ...shedDraft, id: trialId }),
  });
  expect(made.status, await made.text()).toBe(201);
  const { rendered, folder } = await renderedPair();

  await page.goto(`${url}trials/${trialId}`);
  const tests = page.locator("#tests");
  await tests.locator("summary", { hasText: "Write down a tape test" }).click();
  // The section's own line; coupon and parting are a list each; a photograph is the button, the shutter and "use it"; a name.
  let taps = 1 + 2 + 2 + 2 * 3 + 1;
  const tapped = async (tap: Promise<void>, many = 1) => {
    await tap;
    taps += many;
  };
  await tapped(tests.locator("summary", { hasText: "How to cut and pull" }).click());
  await tapped(tests.getByText("Tape is down: start the clock").click());
  await tests.getByText(/Wait until 60/).waitFor();
  await looked("tape-how");
  await proposesTheCut(tests);
  await tests.getByLabel("Coupon", { exact: true }).filter({ visible: true }).selectOption("1");
  await tapped(tests.locator("summary", { hasText: "Photographs" }).click());
  for (const which of ["before", "after"] as const) {
    const frame = await photographCut(tests, folder, which);
    await tapped(setRings(page, frame, rendered[which]), rendered[which].cornersPx.length);
  }
  expect(await tests.getByText("Read the photographs").isDisabled(), "the eye first").toBe(true);
  await tapped(tests.getByLabel(/3B/).check({ force: true }));
  await looked("tape-photos");
  await tapped(tests.getByText("Read the photographs").click());
  await tests.getByText(/came off: class 2B, ISO 2409 class 3\. Your eye said 3B\./).waitFor({ timeout: 60_000 });
  await looked("tape-read");
  await tests.getByLabel("Where the film parted").selectOption("within the coating");
  await tests.getByLabel("Your name").filter({ visible: true }).fill("Ines");
  await tapped(tests.getByText("Write it down").filter({ visible: true }).click());
  await tests.getByText(/Coupon 1: class 2B/).waitFor();
  console.log(`tape test, from cut to class: ${taps} taps`);
  expect(taps, "taps from cut to class").toBeLessThanOrEqual(mostTaps);

  const trial = await (await fetch(`${url}api/trials/${trialId}`)).json();
  const [kept] = trialRecord(trial, trial.observations).tapeTests;
  expect(kept?.body).toMatchObject({
    tapeClass: "2B",
    details: { eyeClass: "3B", counts: "photo", parted: "within the coating", tape: { qualified: false } },
  });
}

/** Both photographs of one cut, and the folder in which they lie as files. */
export async function renderedPair() {
  const rendered = renderTape({
    ...{ seed: 3, primer: "grey", substrate: "phosphate", tiltDeg: 12, uneven: 0.3, widthPx: 900 },
    pattern: { form: "cross-cut", cuts: 6, spacingMm: 2 },
    loss: { percent: 24 },
  });
  const folder = await temporaryFolder();
  for (const which of ["before", "after"] as const) {
    const { rgb, widthPx, heightPx } = rendered[which].photo;
    const raw = { width: widthPx, height: heightPx, channels: 3 } as const;
    writeFileSync(join(folder, `${which}.jpg`), await sharp(rgb, { raw }).jpeg({ quality: 92 }).toBuffer());
  }
  return { rendered, folder };
}

/** A film of 40 µm asks for 1 mm, one of 200 for an X; nothing is chosen until it is tapped. Not counted: a film is measured once. */
async function proposesTheCut(tests: ReturnType<Page["locator"]>): Promise<void> {
  const thickness = tests.getByLabel(/Film thickness/);
  await thickness.fill("200");
  await tests.getByText(/For this film: an X by ASTM D3359; 6 cuts each way, 3 mm apart/).waitFor();
  expect(await tests.getByLabel("Cuts", { exact: true }).inputValue()).toBe("2");
  await thickness.fill("40");
  await tests.getByText(/For this film: 11 cuts each way, 1 mm apart/).waitFor();
  await tests.getByText("Cut as D3359 asks").click();
  expect(await tests.getByLabel("Cuts", { exact: true }).inputValue()).toBe("1");
  await thickness.fill("80");
  await tests.getByText("Cut as D3359 asks").click();
  expect(await tests.getByLabel("Cuts", { exact: true }).inputValue()).toBe("2");
}

/** The file of that photograph, given to the form; the frame in which its rings stand. */
export async function photographCut(tests: Locator, folder: string, which: "before" | "after"): Promise<Locator> {
  const at = which === "before" ? 0 : 1;
  await tests
    .locator('input[type="file"]')
    .nth(at)
    .setInputFiles(join(folder, `${which}.jpg`));
  const frame = tests.locator(".corner-frame").nth(at);
  await frame.waitFor();
  return frame;
}

/** By the mouse, ring by ring; the corners as shares of the picture. */
export async function setRings(
  page: Page,
  frame: ReturnType<Page["locator"]>,
  {
    photo,
    cornersPx,
  }: { photo: { widthPx: number; heightPx: number }; cornersPx: readonly (readonly [number, number])[] },
): Promise<void> {
  await frame.evaluate((element) => element.scrollIntoView({ block: "center", behavior: "instant" }));
  for (const [at, [x, y]] of cornersPx.entries()) {
    const ring = (await frame.getByLabel(`Corner ${at + 1},`).boundingBox())!;
    const box = (await frame.boundingBox())!;
    await page.mouse.move(ring.x + ring.width / 2, ring.y + ring.height / 2);
    await page.mouse.down();
    await page.mouse.move(box.x + (x / photo.widthPx) * box.width, box.y + (y / photo.heightPx) * box.height, {
      steps: 4,
    });
    await page.mouse.up();
  }
}
