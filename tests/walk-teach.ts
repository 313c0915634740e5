/** The reading is taught by strokes: tried, kept as a version, named in the next rating, and the older one chosen again. */
import { expect } from "vitest";
import type { Measurement } from "../src/api/photo.ts";
import { type PercentLook, trialRecord } from "../src/core/trial/trial-record.ts";
import type { Looked, Page } from "./page-browser.ts";
import { cardPhoto, daysAgo, photoTrial } from "./photo-trial.ts";

export async function teachByStrokes(page: Page, url: string, looked: Looked): Promise<void> {
  const trial = await photoTrial(url);
  await trial.look("1", daysAgo(14), 6);
  await page.goto(`${url}trials/${trial.id}`);
  await page.getByRole("link", { name: "How these photographs are read" }).click();
  await page.getByRole("heading", { name: "read by the model that comes with the program" }).waitFor();
  for (const treatment of ["oil", "wax"]) expect(await page.getByText(treatment, { exact: true }).count()).toBe(0);
  await page.getByRole("link", { name: /^Coupon 1, / }).click();

  await page.getByRole("button", { name: "Try it" }).waitFor();
  expect(await page.getByRole("button", { name: "Try it" }).isDisabled(), "both kinds of strokes").toBe(true);
  await paint(page, [
    [0.45, 0.45],
    [0.62, 0.45],
  ]);
  await page.getByLabel("Rust", { exact: true }).check({ force: true });
  await paint(page, [
    [0.325, 0.7],
    [0.33, 0.72],
  ]);
  await page.getByText("2 strokes").waitFor();
  await looked("strokes");
  await page.getByRole("button", { name: "Try it" }).click();
  await page.getByText("With your strokes", { exact: true }).waitFor({ timeout: 30_000 });
  await page
    .getByRole("heading", { name: "Keep it" })
    .evaluate((element) => element.scrollIntoView({ block: "end", behavior: "instant" }));
  await looked("strokes-tried");
  const [before, after] = await page.locator(".before-after figcaption").allTextContents();
  expect(after).toMatch(/^With your strokes[\d.]+ % of the face, D610 grade \d+$/);
  // A stroke on a spot and one on clean steel say what was known: the reading moves little.
  const percentIn = (text: string) => Number.parseFloat(text.match(/([\d.]+) %/)![1]!);
  expect(Math.abs(percentIn(after!) - percentIn(before!))).toBeLessThan(2);

  await page.getByRole("button", { name: "Keep this version" }).click();
  await page.getByText("Give it a name").waitFor();
  await page.getByLabel("Name", { exact: true }).fill("dry phosphate");
  await page.getByLabel("For which finish, in which light").fill("dry manganese phosphate, two lamps");
  await page.getByLabel("Your name").fill("Ines");
  await page.getByRole("button", { name: "Keep this version" }).click();
  await page.getByRole("heading", { name: "read by “dry phosphate”, version 1" }).waitFor();
  await page
    .getByText(/Taught by 2 strokes on 1 photograph, refining the program's own.*Read by it now: shed\./)
    .waitFor();
  await looked("versions");

  // What was read before is offered to be read again; the look stays, with a new number, and the older one in its history.
  await page.getByRole("heading", { name: "1 photograph was read by an older way" }).waitFor();
  await page.getByRole("button", { name: "Read them again" }).click();
  await page.getByRole("heading", { name: "All photographs are read by one way now" }).waitFor({ timeout: 40_000 });
  await looked("read-again");
  const { observations, ...rest } = await (await fetch(`${url}api/trials/${trial.id}`)).json();
  const { looks, corrections } = trialRecord(rest, observations);
  const methods = new Map(rest.measurements.map((one: Measurement) => [one.id, one.method]));
  const one = looks.find(({ body }) => body.coupon === "1")!;
  expect(one).toMatchObject({ by: "Ines", corrects: { why: "read again by “dry phosphate”, version 1" } });
  expect(one.body).toMatchObject({ blind: true, when: { date: daysAgo(14) }, how: "photo" });
  expect(methods.get((one.body as PercentLook).measurement!)).toMatch(/adapted: dry phosphate, version 1$/);
  expect(corrections).toBe(1);

  const method = await readAgain(page, `${url}trials/${trial.id}/inspect/2`);
  expect(method).toMatch(/adapted: dry phosphate, version 1\./);

  await page.goto(`${url}trials/${trial.id}/reading`);
  await page.getByLabel(/^the model that comes with the program/).check({ force: true });
  await page.getByRole("button", { name: "Read them by this from now on" }).click();
  await page.getByRole("heading", { name: "read by the model that comes with the program" }).waitFor();
  await page.getByText("No trial is read by it now.").waitFor();
  expect(await readAgain(page, `${url}trials/${trial.id}/inspect/3`)).not.toContain("adapted");
}

/** A stroke as shares of the coupon. */
async function paint(page: Page, points: [number, number][]): Promise<void> {
  const board = page.locator(".brush-board");
  await board.evaluate((element) => element.scrollIntoView({ block: "center", behavior: "instant" }));
  const box = (await board.boundingBox())!;
  const [from, to] = points.map(([x, y]) => [box.x + x * box.width, box.y + y * box.height] as const);
  await page.mouse.move(...from!);
  await page.mouse.down();
  await page.mouse.move(...to!, { steps: 5 });
  await page.mouse.up();
}

/** Another coupon photographed: the method as the page names it. */
async function readAgain(page: Page, address: string): Promise<string> {
  await page.goto(address);
  const picture = page.locator('input[type="file"]').first();
  await picture.setInputFiles({ name: "c.jpg", mimeType: "image/jpeg", buffer: await cardPhoto(3) });
  const dry = page.getByRole("button", { name: "Dry and wiped" });
  const measured = page.getByText("Looks right");
  await dry.or(measured).first().waitFor({ timeout: 40_000 });
  if (await dry.isVisible()) await dry.click();
  await measured.waitFor({ timeout: 40_000 });
  return (await page.getByText(/^Read: /).textContent())!;
}
