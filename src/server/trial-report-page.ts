/** A trial's printed report, with its pictures inlined small and without what the camera wrote about time and place. */
import { readFile } from "node:fs/promises";
import { answerQuestion } from "../core/trial/answer-question.ts";
import { trialQuestions } from "../core/trial/trial-questions.ts";
import { trialRecord } from "../core/trial/trial-record.ts";
import { siPreferences } from "../core/units.ts";
import { trialReportHtml } from "../report/trial-report.tsx";
import type { ShopStore } from "../store/open-shop.ts";
import type { TrialWithObservations } from "../store/trial-store.ts";
import { previewFile } from "./preview-file.ts";

const pictureWidthPx = 160;

export async function trialReportPage(
  store: ShopStore,
  trial: TrialWithObservations,
  printedOn: string,
): Promise<string> {
  const record = trialRecord(trial, trial.observations);
  const measured = await store.measurements.findAll(
    record.looks.flatMap(({ body }) => (body.measurement === null ? [] : [body.measurement])),
  );
  return trialReportHtml({
    record,
    answered: trialQuestions(record).map((question) => ({ answer: answerQuestion(question), frame: question })),
    measured,
    pictures: await inlined(store, new Set(measured.map((one) => one.overlay))),
    preferences: (await store.settings.shop()).preferences ?? siPreferences,
    printedOn,
    // The paper has the last word over the screen.
    styles: await Promise.all([styleSheet("figures/figures.css"), styleSheet("report.css")]),
  });
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
