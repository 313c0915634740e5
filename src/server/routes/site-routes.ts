/** Sites at a glance, and the climate readings of each, in and out. */
import type { FastifyPluginCallbackZod } from "fastify-type-provider-zod";
import * as z from "zod/mini";
import { name } from "../../api/observation.ts";
import { newReadings, reading, readingsAdded, siteSummary } from "../../api/shop.ts";
import type { ServedShop } from "../served-shop.ts";
import { siteSummaries } from "../site-summaries.ts";

const site = z.strictObject({ site: name });
const instant = z.iso.datetime({ offset: true });

export const siteRoutes: FastifyPluginCallbackZod<ServedShop> = (app, { store, events, now }, done) => {
  app.get("/api/sites", { schema: { response: { 200: z.array(siteSummary) } } }, () => siteSummaries(store, now()));

  app.get(
    "/api/sites/:site/readings",
    {
      schema: {
        params: site,
        querystring: z.strictObject({ from: instant, to: instant }),
        response: { 200: z.array(reading) },
      },
    },
    ({ params, query }) => store.readings.between(params.site, query),
  );

  app.post(
    "/api/sites/:site/readings",
    {
      bodyLimit: 8_000_000,
      schema: { params: site, body: newReadings, response: { 201: readingsAdded } },
    },
    async ({ params, body }, reply) => {
      const added = await store.readings.add(body.map((one) => ({ ...one, site: params.site })));
      events.send({ changed: "shop" });
      reply.code(201);
      return { added, repeated: body.length - added };
    },
  );
  done();
};
