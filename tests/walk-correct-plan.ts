/** A plan corrected in the page: before anything was done all of it, after a look with a mark on what was changed. */
import { randomUUID } from "node:crypto";
import { expect } from "vitest";
import { trialRecord } from "../src/core/trial/trial-record.ts";
import type { Looked, Page } from "./page-browser.ts";
import { look, putOut } from "./shed-trial.ts";
import { trialWithSpares } from "./walk-spare.ts";

export async function correctPlan(page: Page, url: string, looked: Looked): Promise<void> {
  const trialUrl = await trialWithSpares(url);
  const id = trialUrl.slice(-36);
  await page.goto(trialUrl);
  await page.locator("#question").getByText("Correct the plan").click();
  await page.locator("h1", { hasText: "The plan of shed, corrected" }).waitFor();
  await page.getByText("Nothing is changed yet.").waitFor();
  await page.getByLabel("Blocks", { exact: true }).fill("2");
  await page.getByText("A new lot is drawn").waitFor();
  await page.getByLabel("Why is it corrected?").fill("two racks, not one");
  await page.getByLabel("Your name").fill("Ines");
  await looked("correct-plan");
  await page.getByText("Keep the corrected plan").click();
  await page.locator("#rack").getByText("Drawn by lot within blocks").waitFor();
  const blocks = new Set((await recordOf(url, id)).plan.places.map((place) => place.block));
  expect([...blocks]).toEqual(["1", "2", null]);

  for (const body of [putOut(["1", "2", "3", "4"], "2026-05-01"), look("1", "2026-05-02")]) {
    const answer = await fetch(`${url}api/trials/${id}/observations`, {
      method: "POST",
      headers: { "content-type": "application/json" },
      body: JSON.stringify({ id: randomUUID(), by: "Ines", corrects: null, body }),
    });
    expect(answer.status, await answer.text()).toBe(201);
  }
  await page.goto(`${trialUrl}/plan`);
  await page.getByText("Looks are on record").waitFor();
  expect(await page.getByLabel("Blocks", { exact: true }).count(), "who got what stays").toBe(0);
  await page.getByLabel("Days after putting out").fill("1, 3, 7");
  await page.getByText("No question is marked by it.").waitFor();
  await page.getByLabel("Smallest difference").first().fill("1.2");
  await page.getByText("“Time to first rust” becomes exploratory").waitFor();
  await looked("correct-plan-after-look");
  await page.getByLabel("Why is it corrected?").fill("a fifth more is worth it to me");
  await page.getByText("Keep the corrected plan").click();
  const question = page.locator("#question");
  await question.getByText("never more than suggested").waitFor();
  await question.getByText("The plan was corrected 2 times").click();
  await question.getByText("smallest difference that matters: 1.2 instead of 1.5").waitFor();
  await looked("corrected-plan");
  const report = await (await fetch(`${url}api/trials/${id}/report`)).text();
  expect(report).toMatch(/The plan was corrected on \d{4}-\d\d-\d\d by Ines: a fifth more is worth it to me/);
  expect(report).toContain("smallest difference that matters: 1.2 instead of 1.5");
}

async function recordOf(url: string, id: string) {
  const trial = await (await fetch(`${url}api/trials/${id}`)).json();
  return trialRecord(trial, trial.observations);
}
