/** A trial's printed report, with its pictures inlined small and without what the camera wrote about time and place. */
import { readFile } from "node:fs/promises";
import { answerDetails } from "../core/trial/answer-details.ts";
import { answerQuestion } from "../core/trial/answer-question.ts";
import { dateAfter } from "../core/trial/calendar.ts";
import { siteNames } from "../core/trial/hanging-at-sites.ts";
import { trialQuestions } from "../core/trial/trial-questions.ts";
import { type TrialRecord, trialRecord } from "../core/trial/trial-record.ts";

import { siPreferences } from "../core/units.ts";
import { siteStrip, stripClimate } from "../report/figures/site-strip.ts";
import type { OutdoorsAtSite } from "../report/outdoors-figures.tsx";
import { trialReportHtml } from "../report/trial-report.tsx";
import type { ShopStore } from "../store/open-shop.ts";
import type { TrialWithObservations } from "../store/trial-store.ts";
import { calendarDate, shopZone } from "./calendar-date.ts";
import { previewFile } from "./preview-file.ts";

const pictureWidthPx = 160;

export async function trialReportPage(store: ShopStore, trial: TrialWithObservations, now: Date): Promise<string> {
  const record = trialRecord(trial, trial.observations);
  const measured = await store.measurements.findAll(
    record.looks.flatMap(({ body }) => (body.measurement === null ? [] : [body.measurement])),
  );
  return trialReportHtml({
    record,
    answered: trialQuestions(record).map((question) => {
      const answer = answerQuestion(question);
      return { answer, frame: question, details: answerDetails(question, answer.findings) };
    }),
    measured,
    pictures: await inlined(store, new Set(measured.map((one) => one.overlay))),
    preferences: (await store.settings.shop()).preferences ?? siPreferences,
    outdoors: await outdoorsOf(store, record, now),
    printedOn: calendarDate(now),
    // The paper has the last word over the screen.
    styles: await Promise.all([styleSheet("figures/figures.css"), styleSheet("report.css")]),
  });
}

async function outdoorsOf(store: ShopStore, record: TrialRecord, now: Date): Promise<OutdoorsAtSite[]> {
  const { thicknessMm } = record.plan.couponSize;
  return Promise.all(
    siteNames(record).map(async (site) => {
      const strip = siteStrip(record, site, calendarDate(now));
      // A day more at both ends: days are those of the shop's clock, readings are kept in UTC.
      const readings = await store.readings.between(site, {
        from: `${dateAfter(strip.start, -1)}T00:00:00Z`,
        to: `${dateAfter(strip.endsBefore, 1)}T00:00:00Z`,
      });
      const rows = readings.map(({ at, tempC, rhPercent }) => ({ atMs: Date.parse(at), tempC, rhPercent }));
      return { strip, climate: stripClimate(strip, rows, { thicknessMm, zone: shopZone(), nowMs: now.getTime() }) };
    }),
  );
}

async function inlined(store: ShopStore, hashes: ReadonlySet<string>): Promise<Record<string, string>> {
  const pictures: Record<string, string> = {};
  for (const hash of hashes) {
    const photo = await store.photos.find(hash);
    if (!photo) continue;
    const small = await readFile(await previewFile(store, photo, pictureWidthPx));
    pictures[hash] = `data:image/jpeg;base64,${small.toString("base64")}`;
  }
  return pictures;
}

function styleSheet(name: string): Promise<string> {
  return readFile(new URL(`../report/${name}`, import.meta.url), "utf8");
}
