/** The printed report of a trial, made afresh each time it is asked for. */
import type { FastifyPluginCallbackZod } from "fastify-type-provider-zod";
import * as z from "zod/mini";
import type { ServedShop } from "../served-shop.ts";
import { trialReportPage } from "../trial-report-page.ts";
import { findTrial } from "./trial-routes.ts";

/** The page alone: its own inline styles and pictures, nothing that runs, and in no other page's frame. */
const reportPolicy = [
  "default-src 'none'",
  "style-src 'unsafe-inline'",
  "img-src data:",
  // What follows does not fall back on default-src.
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
].join("; ");

export const reportRoutes: FastifyPluginCallbackZod<ServedShop> = (app, { store, now }, done) => {
  app.get(
    "/api/trials/:id/report",
    { schema: { params: z.strictObject({ id: z.uuid() }) } },
    async ({ params }, reply) => {
      const html = await trialReportPage(store, await findTrial(store, params.id), now());
      reply.header("content-security-policy", reportPolicy);
      return reply.type("text/html; charset=utf-8").send(html);
    },
  );
  done();
};
