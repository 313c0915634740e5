/** The printed report of a trial, made afresh each time it is asked for. */
import type { FastifyPluginCallbackZod } from "fastify-type-provider-zod";
import * as z from "zod/mini";
import type { ServedShop } from "../served-shop.ts";
import { trialReportPage } from "../trial-report-page.ts";
import { findTrial } from "./trial-routes.ts";

export const reportRoutes: FastifyPluginCallbackZod<ServedShop> = (app, { store, now }, done) => {
  app.get(
    "/api/trials/:id/report",
    { schema: { params: z.strictObject({ id: z.uuid() }) } },
    async ({ params }, reply) => {
      const html = await trialReportPage(store, await findTrial(store, params.id), now());
      // The page alone: its own inline styles and pictures, and nothing that runs.
      reply.header("content-security-policy", "default-src 'none'; style-src 'unsafe-inline'; img-src data:");
      return reply.type("text/html; charset=utf-8").send(html);
    },
  );
  done();
};
