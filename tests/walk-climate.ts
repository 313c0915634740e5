/** Sites in the page: a logger's file is brought, the strip and Today tell of it, and the looks go into a calendar. */
import { expect } from "vitest";
import type { Looked, Page } from "./page-browser.ts";

const hourMs = 3_600_000;

/** An hourly log up to now: nights wet, and one day in the middle that nobody knows. */
export function loggerFile(from: string): Buffer {
  const begins = Date.parse(`${from}T00:00:00Z`);
  const hours = Math.floor((Date.now() - begins) / hourMs);
  const silent = Math.floor(hours / 2);
  const rows = Array.from({ length: hours + 1 }, (_, hour) => {
    const wet = hour % 24 < 8;
    const at = new Date(begins + hour * hourMs).toISOString();
    return hour > silent && hour < silent + 24
      ? ""
      : `${at.slice(0, 16).replace("T", " ")};${wet ? "6,5" : "14,2"};${wet ? "93" : "61"}\n`;
  });
  return Buffer.from(`Time (UTC);Temperature (°C);Relative Humidity (%)\n${rows.join("")}`);
}

/** On the trial's page, with coupons out since that date. */
export async function bringLog(page: Page, putOutOn: string, looked: Looked): Promise<void> {
  const outdoors = page.locator("#outdoors");
  await outdoors.getByText(/There is no climate log of shed roof/).waitFor();
  await outdoors.locator("summary", { hasText: "Bring a climate log" }).click();
  const file = outdoors.getByLabel("The file (CSV)");
  await file.setInputFiles({
    name: "unit.csv",
    mimeType: "text/csv",
    buffer: Buffer.from("time_utc,temp,rh\n1,2,3\n"),
  });
  await outdoors.getByText(/Row 1: temp; expected a temperature with its unit/).waitFor();
  await file.setInputFiles({ name: "shed roof.csv", mimeType: "text/csv", buffer: loggerFile(putOutOn) });
  await outdoors.getByText(/readings understood, from/).waitFor();
  await outdoors.getByRole("button", { name: "Keep these readings" }).click();
  await outdoors.getByText(/readings are kept/).waitFor();
  await outdoors.getByText(/^Wet for \d+ of \d+ hours; .*23 hours unknown\.$/).waitFor();
  await looked("climate-log");
}

/** What Today says of the site that the log was brought for. */
export async function readSiteLine(page: Page): Promise<void> {
  const line = page.locator(".site-line", { hasText: "Shed roof: 14 coupons out since" });
  await line.getByText(/wet [\d.]+ of the last 24 hours/).waitFor();
  await line.getByRole("img", { name: /hour by hour/ }).waitFor();
}

/** The looks as a file, on the trial's page: with a date to ask for while nothing is out, without one afterwards. */
export async function getCalendar(page: Page, { goOutOn }: { goOutOn: string | null }): Promise<void> {
  const outdoors = page.locator("#outdoors");
  const link = outdoors.getByRole("link", { name: "Get the calendar file" });
  // Opened once, it stays open while the page is there.
  if (!(await link.isVisible())) await outdoors.locator("summary", { hasText: "Looks for your calendar" }).click();
  if (goOutOn !== null) await outdoors.getByLabel("They go out on").fill(goOutOn);
  const coming = page.waitForEvent("download");
  await link.click();
  const chunks: Buffer[] = [];
  for await (const chunk of await (await coming).createReadStream()) chunks.push(Buffer.from(chunk));
  const file = Buffer.concat(chunks).toString();
  expect(file).toMatch(/^BEGIN:VCALENDAR\r\n/);
  expect(file).toContain("DTSTART;VALUE=DATE:");
  expect(file).not.toMatch(/oiled|waxed/);
}
