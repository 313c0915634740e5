/** The first sentence of a trial's page: how it stands, without giving a treatment away. */
import { daysBetween } from "../../core/trial/calendar.ts";
import { isPast, siteNames } from "../../core/trial/hanging-at-sites.ts";
import type { TrialRecord } from "../../core/trial/trial-record.ts";
import { rustSpans } from "../../report/figures/rust-spans.ts";
import { testsText } from "../text/tests.ts";
import { trialText } from "../text/trial.ts";
import { hasTests } from "./stages.ts";
import { couponsOut, lastLookDay, startDate } from "./where-it-stands.ts";

const text = trialText.standing;

export function standingSentence(record: TrialRecord, today: string): string {
  return `${where(record, today)}${rust(record)}${record.unblinded ? ` ${text.closed}` : ""}`;
}

function where(record: TrialRecord, today: string): string {
  const start = startDate(record);
  const { places } = record.plan;
  if (isPast(record)) {
    const tests = record.looks.length === 0 && hasTests(record) ? ` ${testsText.sentence(record)}` : "";
    return `${text.past(places.filter((place) => !place.spare && place.keptFor === undefined).length, siteNames(record), lastLookDay(record))}${tests}`;
  }
  if (start === null) {
    const through = new Set(record.applications.flatMap((one) => one.body.coupons));
    return through.size > 0 ? text.treated(through.size, places.length) : text.drawn(places.length);
  }
  const out = couponsOut(record);
  return out.length === 0 ? text.allDown : text.out(out.length, siteNames(record), daysBetween(start, today));
}

function rust(record: TrialRecord): string {
  const spans = rustSpans(record);
  if (spans.length === 0) return "";
  return ` ${text.rusted(spans.filter((one) => one.right !== null).length, spans.length)}`;
}
