/** The planned looks of a trial as a calendar file, made afresh each time it is asked for. */
import type { FastifyPluginCallbackZod } from "fastify-type-provider-zod";
import * as z from "zod/mini";
import { trialRecord } from "../../core/trial/trial-record.ts";
import { lookCalendar } from "../../report/look-calendar.ts";
import type { ServedShop } from "../served-shop.ts";
import { findTrial } from "./trial-routes.ts";

export const calendarRoutes: FastifyPluginCallbackZod<ServedShop> = (app, { store, now }, done) => {
  app.get(
    "/api/trials/:id/looks.ics",
    {
      schema: {
        params: z.strictObject({ id: z.uuid() }),
        /** When the coupons that are not out yet are meant to go out. */
        querystring: z.strictObject({ from: z.optional(z.iso.date()) }),
      },
    },
    async ({ params, query }, reply) => {
      const trial = await findTrial(store, params.id);
      const file = lookCalendar(trialRecord(trial, trial.observations), query.from ?? null, now());
      return reply
        .type("text/calendar; charset=utf-8")
        .header("content-disposition", 'attachment; filename="looks.ics"')
        .send(file);
    },
  );
  done();
};
