/** A coupon lost before it went out: a spare of the same kind takes its place, and everything that follows knows. */
import { expect } from "vitest";
import { sparesFor } from "../src/core/trial/stand-ins.ts";
import { trialRecord } from "../src/core/trial/trial-record.ts";
import type { Looked, Page } from "./page-browser.ts";
import { shedDraft } from "./test-server.ts";

const trialId = "5f8f8b54-22d3-4d59-9a44-0f8a4a3d9c21";

/** A trial of coupons 1 to 4, with one spare of each treatment. */
export async function trialWithSpares(url: string): Promise<string> {
  const made = await fetch(`${url}api/trials`, {
    method: "POST",
    headers: { "content-type": "application/json" },
    body: JSON.stringify({ ...shedDraft, id: trialId, draft: { ...shedDraft.draft, sparesOfEach: 1 } }),
  });
  expect(made.status, await made.text()).toBe(201);
  return `${url}trials/${trialId}`;
}

export async function letSpareTakeOver(page: Page, url: string, looked: Looked): Promise<void> {
  const trialUrl = await trialWithSpares(url);
  const before = await recordOf(url);
  const [spare] = sparesFor(before, "2");
  const rackPlace = before.plan.places.find((place) => place.coupon === "2")?.rack;

  await page.goto(trialUrl);
  const outdoors = page.locator("#outdoors");
  await outdoors.locator("summary", { hasText: "A coupon was lost" }).click();
  await outdoors.getByLabel("Coupon", { exact: true }).selectOption("2");
  const offer = outdoors.getByLabel("A spare takes its place");
  expect(await offer.inputValue()).toBe(spare);
  // By its number alone: whoever looks at coupons learns no treatment here.
  const said = await outdoors.textContent();
  for (const { name } of before.plan.treatments) expect(said).not.toMatch(new RegExp(`\\b${name}\\b`));
  await outdoors.getByLabel("Note").fill("bent in the vice");
  await outdoors.locator("form").last().getByLabel("Your name").fill("Ines");
  await looked("spare-offered");
  await outdoors.getByText("Keep this", { exact: true }).click();
  await page.locator("#rack").getByText(`Spare ${spare} took the place of coupon 2: bent in the vice`).waitFor();
  await looked("spare-took-over");

  const after = await recordOf(url);
  expect(after.plan.places.find((place) => place.coupon === spare)).toMatchObject({ rack: rackPlace, spare: false });
  await outdoors.locator("summary", { hasText: "Put coupons out" }).click();
  await outdoors.getByLabel("Site").fill("shed roof");
  await outdoors.getByText("Put them out").click();
  await page.locator("h1", { hasText: "4 coupons hang" }).waitFor();
  expect((await recordOf(url)).putOut[0]?.body.coupons).toEqual(["1", "3", "4", spare]);
  const report = await (await fetch(`${url}api/trials/${trialId}/report`)).text();
  expect(report).toMatch(/Spare .*took the place of coupon/);
  expect(report).toContain("bent in the vice");
}

async function recordOf(url: string) {
  const trial = await (await fetch(`${url}api/trials/${trialId}`)).json();
  return trialRecord(trial, trial.observations);
}
