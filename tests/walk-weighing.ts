/** Coupons on the balance: a poor one is refused before anything is weighed, a good one gives grams per square metre. */
import { expect } from "vitest";
import { trialRecord } from "../src/core/trial/trial-record.ts";
import type { Looked, Page } from "./page-browser.ts";
import { shedDraft } from "./test-server.ts";
import { weighedCoupons } from "./weighed-coupons.ts";

const trialId = "0d7a3a50-4c0b-4f0e-9d53-5a1d7b0c8e11";

export async function weighCoupons(page: Page, url: string, looked: Looked): Promise<void> {
  // 50 x 25 x 3 mm: 29.5 cm² all round.
  const draft = {
    ...shedDraft.draft,
    questions: [{ ...weighedCoupons, weighed: "gain" }],
    couponSize: { lengthMm: 50, widthMm: 25, thicknessMm: 3 },
  };
  const made = await fetch(`${url}api/trials`, {
    method: "POST",
    headers: { "content-type": "application/json" },
    body: JSON.stringify({ ...shedDraft, draft, id: trialId }),
  });
  expect(made.status, await made.text()).toBe(201);
  await page.goto(`${url}trials/${trialId}`);
  const tests = page.locator("#tests");
  await tests.locator("summary", { hasText: "Weigh coupons" }).click();
  await keepBalance(page, "10");
  await tests
    .getByText(/This balance cannot tell .* on a coupon of this size/)
    .first()
    .waitFor();
  await tests.getByLabel("On the balance at once").scrollIntoViewIfNeeded();
  await looked("weigh-poor");
  // Of two treatments with two coupons each no more than two can hang together, whatever is asked for.
  await tests.getByLabel("On the balance at once").selectOption("2");
  await tests.getByText("show who hangs together").waitFor();
  expect(await tests.getByLabel(/^Coupons .* together$/).count(), "who belongs together is not shown in passing").toBe(
    0,
  );
  await looked("weigh-groups");
  await tests.getByLabel("On the balance at once").selectOption("1");
  await keepBalance(page, "1");
  const fields = tests.getByLabel(/^Coupon \d+$/);
  await fields.first().waitFor();
  const numbers = await tests.locator("label", { hasText: /^Coupon \d+$/ }).allTextContents();
  expect(numbers, "in the order of their numbers").toEqual(["Coupon 1", "Coupon 2", "Coupon 3", "Coupon 4"]);
  await fields.first().fill("87.412");
  await tests.locator("details[open]").getByLabel("Your name").fill("Ines");
  await looked("weigh-bare");
  await tests.getByText("Write these down").click();
  await tests.getByText(/One is weighed in this state already/).waitFor();
  const masses = tests.getByText(/^Coupon 1: bare 87\.412 g/);
  expect(await masses.isVisible(), "no mass is read in passing while the trial is blind").toBe(false);
  await tests.locator("summary", { hasText: "Weighings (masses may tell treatments apart): 1 coupon" }).waitFor();
  await tests.getByLabel("Weighed now").selectOption("coated");
  await tests.getByLabel("Coupon 1", { exact: true }).fill("87.442");
  await tests.getByText("Write these down").click();
  await tests.locator("summary", { hasText: "What they say" }).click();
  // 30 mg on 29.5 cm²: 10.2 g/m² gained, coating at least 1.3 times that.
  await tests.getByText(/Coupon 1: Coating at least 13\.\d g\/m²/).waitFor();
  await looked("weigh-said");
  const trial = await (await fetch(`${url}api/trials/${trialId}`)).json();
  expect(trialRecord(trial, trial.observations).weighings.map(({ body }) => [body.state, body.massG])).toEqual([
    ["bare", 87.412],
    ["coated", 87.442],
  ]);
}

async function keepBalance(page: Page, milligrams: string): Promise<void> {
  await page.getByLabel("Last digit of the balance").fill(milligrams);
  await page.getByText("Keep for the shop").click();
  await page.getByText("Kept for the shop.").waitFor();
}
