/** A finish colour from photographs on the card, on two dates: how dark stands in the findings, and how much it changed. */
import { randomUUID } from "node:crypto";
import type { Locator } from "playwright-core";
import sharp from "sharp";
import { expect } from "vitest";
import type { ValueResponse } from "../src/core/trial/declared-question.ts";
import { madeOnce } from "./made-once.ts";
import type { Looked, Page } from "./page-browser.ts";
import { daysAgo, photoPlan } from "./photo-trial.ts";
import { cleanCoupon, type RenderedCard, renderCard } from "./rendered-card.ts";
import { shedDraft } from "./test-server.ts";
import { closeAndRead, trialNow } from "./walk-wear.ts";

const lightness: ValueResponse = {
  ...{
    response: "value",
    name: "how dark",
    kind: "continuous",
    better: "lower",
    unit: "L*",
    ratio: false,
    scale: null,
  },
  seen: { of: "lightness", state: "dry and wiped" },
} as const;
const change: ValueResponse = {
  ...lightness,
  ...{ name: "colour change", unit: "ΔE00", seen: { of: "change", state: "dry and wiped" } },
} as const;

export async function readFinishColours(page: Page, url: string, looked: Looked): Promise<void> {
  const id = randomUUID();
  const rest = { family: "control", margin: 3, atDay: null } as const;
  const draft = {
    ...photoPlan,
    questions: [
      { ...lightness, ...rest },
      { ...change, ...rest },
    ],
  };
  const made = await fetch(`${url}api/trials`, {
    method: "POST",
    headers: { "content-type": "application/json" },
    body: JSON.stringify({ ...shedDraft, draft, id }),
  });
  expect(made.status, await made.text()).toBe(201);
  await page.goto(`${url}trials/${id}`);
  const tests = page.locator("#tests");
  await tests.locator("summary", { hasText: "Read a finish colour" }).click();
  await looked("colour-start");
  for (const [date, lighter] of [
    [daysAgo(30), 0],
    [daysAgo(1), 40],
  ] as const) {
    await tests.getByLabel("Coupon", { exact: true }).filter({ visible: true }).selectOption("1");
    await tests
      .getByLabel("Date", { exact: true })
      .or(tests.getByLabel("Date of the test"))
      .filter({ visible: true })
      .first()
      .fill(date);
    if (lighter === 0) {
      // A lamp in the face first: it is said, and another photograph takes its place.
      await photograph(tests, await colourPhoto(0, 0.3));
      const lamp = tests.getByText(/a lamp mirrored in the face/);
      await lamp.waitFor({ timeout: 60_000 });
      await lamp.evaluate((element) => element.scrollIntoView({ block: "center", behavior: "instant" }));
      await looked("colour-lamp");
    }
    await photograph(tests, await colourPhoto(lighter, 0));
    await tests.getByText(/a lamp mirrored in the face/).waitFor({ state: "detached", timeout: 60_000 });
    await tests.locator(".sentence", { hasText: "L*" }).waitFor({ timeout: 60_000 });
    await tests
      .locator(".sentence", { hasText: "L*" })
      .evaluate((element) => element.scrollIntoView({ block: "center", behavior: "instant" }));
    if (lighter === 0) await looked("colour-read");
    const yourName = tests.getByLabel("Your name").filter({ visible: true });
    if (await yourName.isVisible()) await yourName.fill("Ines");
    await tests.getByText("Keep this colour").click();
    await tests
      .getByText(/^Coupon 1: .*L\* \d/)
      .nth(lighter === 0 ? 0 : 1)
      .waitFor();
  }
  const [first, last] = (await trialNow(url, id)).finishColours;
  expect(last!.body.reading.lab.lStar).toBeGreaterThan(first!.body.reading.lab.lStar + 4);
  await closeAndRead(page, { id, url });
  const findings = page.locator("#findings");
  // One coupon tells nothing about treatments, and the answer says so in the colours' own units.
  await findings
    .getByText(/how dark/i)
    .filter({ visible: true })
    .first()
    .waitFor();
  await findings
    .getByText(/colour change/i)
    .filter({ visible: true })
    .first()
    .waitFor();
  await findings.evaluate((element) => element.scrollIntoView({ behavior: "instant" }));
  await looked("colour-finding");
}

async function photograph(tests: Locator, buffer: Buffer): Promise<void> {
  await tests
    .locator('input[type="file"]')
    .filter({ visible: true })
    .or(tests.locator('label:has-text("Photograph it on the card") input'))
    .first()
    .setInputFiles({ name: "1.jpg", mimeType: "image/jpeg", buffer });
}

/** A phosphated coupon, all of it lighter by so many sRGB levels than when it was made, and a lamp in it, a share of white. */
export const colourPhoto = madeOnce((lighter: number, glare: number) => asJpeg(colourScene(lighter, glare)));

export function colourScene(lighter: number, glare: number): RenderedCard {
  const clean = cleanCoupon("phosphate dry");
  const coupon = { ...clean, colours: clean.colours.map((level) => Math.min(255, level + lighter)) };
  const scene = { seed: 5, card: "medium", widthPx: 1400, fills: 0.6, tiltDeg: 4, coupon, light: { glare } } as const;
  return renderCard(scene);
}

export const asJpeg = ({ rgb, widthPx, heightPx }: RenderedCard): Promise<Buffer> =>
  sharp(rgb, { raw: { width: widthPx, height: heightPx, channels: 3 } })
    .jpeg({ quality: 92 })
    .toBuffer();
