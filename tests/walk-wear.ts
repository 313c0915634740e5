/** Wear from the counter to the finding: looked at every few, whole or through by one press, the trial closed and answered. */
import { randomUUID } from "node:crypto";
import { expect } from "vitest";
import { trialRecord } from "../src/core/trial/trial-record.ts";
import type { Looked, Page } from "./page-browser.ts";
import { shedDraft } from "./test-server.ts";

/** Looks that each coupon stands up to; by the lot's own treatments, so that wax lasts longer. */
const wholeLooks = { oil: 1, wax: 4 } as const;

export async function wearThrough(page: Page, url: string, looked: Looked): Promise<void> {
  const id = randomUUID();
  const draft = {
    ...shedDraft.draft,
    question: "Does wax wear longer than oil?",
    questions: (["face", "edge"] as const).map((place) => ({
      ...{ response: "strokes to breakthrough", place, family: "control", margin: 1.5, atDay: null },
    })),
  };
  const made = await fetch(`${url}api/trials`, {
    method: "POST",
    headers: { "content-type": "application/json" },
    body: JSON.stringify({ ...shedDraft, draft, id }),
  });
  expect(made.status, await made.text()).toBe(201);
  const { plan } = await trialNow(url, id);
  await page.goto(`${url}trials/${id}`);
  const tests = page.locator("#tests");
  await tests.locator("summary", { hasText: "Write down a wear test" }).click();
  await tests.getByLabel("What rubs").fill("felt pad, oiled");
  await tests.getByLabel("Grit").fill("P1000");
  await tests.getByLabel("Load on it").fill("500");
  await tests.getByLabel("Your name").filter({ visible: true }).fill("Ines");
  for (const { coupon, treatment } of plan.places) {
    await tests.getByLabel("Coupon", { exact: true }).filter({ visible: true }).selectOption(coupon);
    const last = coupon === plan.places.at(-1)?.coupon;
    // Whoever rubs another load is told so before it is written down.
    if (last) {
      await tests.getByLabel("Load on it").fill("700");
      await tests.getByText(/^Not as at the coupons before: load on it\./).waitFor();
    }
    const whole = wholeLooks[treatment as keyof typeof wholeLooks];
    expect(await tests.getByText("Written down.", { exact: true }).count(), "beside what is not written yet").toBe(0);
    for (let look = 1; look <= whole; look++)
      await tests.getByRole("button", { name: `Still whole at ${10 * look}` }).click();
    if (coupon === plan.places[0]?.coupon) {
      await tests.getByText(/^Next look after/).scrollIntoViewIfNeeded();
      await looked("wear-count");
    }
    await tests.getByRole("button", { name: `Through at ${10 * (whole + 1)}` }).click();
    await tests.getByText(`Whole at ${10 * whole}, through by ${10 * (whole + 1)}.`).waitFor();
    if (last) {
      await tests.getByLabel("Coating worn off, weighed").fill("12");
      await looked("wear-through");
    }
    await tests.getByText("Write it down", { exact: true }).filter({ visible: true }).click();
    await tests
      .getByText(new RegExp(`^Coupon ${coupon}, .*: ${10 * whole} to ${10 * (whole + 1)} strokes`))
      .waitFor({ state: "attached" });
  }
  const kept = await trialNow(url, id);
  expect(kept.wearTests).toHaveLength(4);
  expect(kept.wearTests.every(({ body }) => body.place === "face" && body.blind)).toBe(true);
  await closeAndRead(page, { id, url });
  const findings = page.locator("#findings");
  await findings.getByText(/wax/).filter({ visible: true }).first().waitFor();
  await findings.evaluate((element) => element.scrollIntoView({ behavior: "instant" }));
  await looked("wear-finding");
}

export async function trialNow(url: string, id: string) {
  const trial = await (await fetch(`${url}api/trials/${id}`)).json();
  return trialRecord(trial, trial.observations);
}

/** By the API: the way to close a trial in the page has a walk of its own. */
export async function closeAndRead(page: Page, { id, url }: { id: string; url: string }): Promise<void> {
  const answer = await fetch(`${url}api/trials/${id}/observations`, {
    method: "POST",
    headers: { "content-type": "application/json" },
    body: JSON.stringify({ id: randomUUID(), by: "Ines", corrects: null, body: { kind: "unblinding" } }),
  });
  expect(answer.ok, await answer.text()).toBe(true);
  await page.goto(`${url}trials/${id}`);
  await page.locator("#findings").waitFor();
}
