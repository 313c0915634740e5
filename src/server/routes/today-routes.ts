/** What is due, over all trials of the shop. */
import type { FastifyPluginCallbackZod } from "fastify-type-provider-zod";
import { type DueToday, dueToday, type LookSaid } from "../../api/shop.ts";
import { type DueLook, dueLooks } from "../../core/trial/due-looks.ts";
import { lookConflicts } from "../../core/trial/look-conflicts.ts";
import { type Look, type Observed, trialRecord } from "../../core/trial/trial-record.ts";
import { writtenAt } from "../../core/trial/written-at.ts";
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
      conflicts: records.flatMap((record) =>
        lookConflicts(record).map(({ counts, differs }) => ({
          trial: { id: record.id, name: record.name },
          counts: said(counts),
          differs: said(differs),
        })),
      ),
    };
  });
  done();
};

function said(look: Observed<Look>): LookSaid {
  return { id: look.id, by: look.by, writtenAt: writtenAt(look), body: look.body };
}

function byDate(one: DueLook, other: DueLook): number {
  return one.date.localeCompare(other.date) || one.trial.name.localeCompare(other.trial.name);
}
