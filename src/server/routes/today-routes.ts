/** What is due, over all trials of the shop. */
import type { FastifyPluginCallbackZod } from "fastify-type-provider-zod";
import { type DueToday, dueToday } from "../../api/shop.ts";
import { type DueLook, dueLooks } from "../../core/trial/due-looks.ts";
import { trialRecord } from "../../core/trial/trial-record.ts";
import { calendarDate } from "../calendar-date.ts";
import type { ServedShop } from "../served-shop.ts";

export const todayRoutes: FastifyPluginCallbackZod<ServedShop> = (app, { store, now }, done) => {
  app.get("/api/today", { schema: { response: { 200: dueToday } } }, async (): Promise<DueToday> => {
    const date = calendarDate(now());
    const trials = await store.trials.all();
    const due = trials.map((trial) => dueLooks(trialRecord(trial, trial.observations), date));
    return {
      date,
      overdue: due.flatMap((one) => one.overdue).sort(byDate),
      today: due.flatMap((one) => one.today).sort(byDate),
      thisWeek: due.flatMap((one) => one.thisWeek).sort(byDate),
      later: due.flatMap((one) => one.later).sort(byDate),
    };
  });
  done();
};

function byDate(one: DueLook, other: DueLook): number {
  return one.date.localeCompare(other.date) || one.trial.name.localeCompare(other.trial.name);
}
