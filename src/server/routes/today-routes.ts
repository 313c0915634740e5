/** What is due, over all trials of the shop. */
import type { FastifyPluginCallbackZod } from "fastify-type-provider-zod";
import { type Differing, type DueToday, dueToday } from "../../api/shop.ts";
import { type DueLook, dueLooks } from "../../core/trial/due-looks.ts";
import { lookConflicts } from "../../core/trial/look-conflicts.ts";
import { saysOtherwise } from "../../core/trial/read-twice.ts";
import {
  type Look,
  type Observed,
  type OneReading,
  type TrialRecord,
  trialRecord,
} from "../../core/trial/trial-record.ts";
import { writtenAt } from "../../core/trial/written-at.ts";
import { differingText } from "../../report/differing-text.ts";
import { calendarDate } from "../calendar-date.ts";
import type { ServedShop } from "../served-shop.ts";

export const todayRoutes: FastifyPluginCallbackZod<ServedShop> = (app, { store, now }, done) => {
  app.get("/api/today", { schema: { response: { 200: dueToday } } }, async (): Promise<DueToday> => {
    const date = calendarDate(now());
    const trials = await store.trials.all();
    const records = trials.map((trial) => trialRecord(trial, trial.observations));
    const due = records.map((record) => dueLooks(record, date));
    return {
      date,
      overdue: due.flatMap((one) => one.overdue).sort(byDate),
      today: due.flatMap((one) => one.today).sort(byDate),
      thisWeek: due.flatMap((one) => one.thisWeek).sort(byDate),
      later: due.flatMap((one) => one.later).sort(byDate),
      differing: records.flatMap(differingIn),
    };
  });
  done();
};

function differingIn(record: TrialRecord): Differing[] {
  const { id, name, plan } = record;
  const said = (one: Observed<Look | OneReading>) => {
    const { reading } = differingText(one.body, plan);
    return { id: one.id, by: one.by, writtenAt: writtenAt(one), reading };
  };
  return [...lookConflicts(record), ...record.twice.filter(saysOtherwise)].map(({ counts, differs }) => ({
    trial: { id, name },
    what: differingText(counts.body, plan).what,
    when: "when" in counts.body ? counts.body.when : null,
    counts: said(counts),
    differs: said(differs),
  }));
}

function byDate(one: DueLook, other: DueLook): number {
  return one.date.localeCompare(other.date) || one.trial.name.localeCompare(other.trial.name);
}
