/** The shop itself: what the user prefers, and the line on which open pages hear of changes. */
import type { FastifyPluginCallbackZod } from "fastify-type-provider-zod";
import * as z from "zod/mini";
import { balanceMg, cardRulerMm, preferences, shop } from "../../api/shop.ts";
import { sendProblem } from "../problem-details.ts";
import type { ServedShop } from "../served-shop.ts";
import { thisMachine } from "../sharing/access-guard.ts";

export const shopRoutes: FastifyPluginCallbackZod<ServedShop> = (app, { store, events, now }, done) => {
  app.get("/api/shop", { schema: { response: { 200: shop } } }, () => store.settings.shop());

  app.put("/api/shop/preferences", { schema: { body: preferences, response: { 200: shop } } }, async ({ body }) => {
    const changed = await store.settings.prefer(body, now().toISOString());
    events.send({ changed: "shop" });
    return changed;
  });

  app.put(
    "/api/shop/card-ruler",
    { schema: { body: z.strictObject({ cardRulerMm }), response: { 200: shop } } },
    async ({ body }) => {
      const changed = await store.settings.measureCardRuler(body.cardRulerMm, now().toISOString());
      events.send({ changed: "shop" });
      return changed;
    },
  );

  app.put(
    "/api/shop/balance",
    { schema: { body: z.strictObject({ balanceMg }), response: { 200: shop } } },
    async ({ body }) => {
      const changed = await store.settings.weighOn(body.balanceMg, now().toISOString());
      events.send({ changed: "shop" });
      return changed;
    },
  );

  app.get("/api/events", { schema: { hide: true } }, ({ device }, reply) => {
    // At this machine itself nobody is counted.
    if (!events.add(reply.raw, device?.id === thisMachine.id ? null : (device?.id ?? null)))
      return sendProblem(reply, { status: 429, detail: "this device listens on too many pages; close some" });
    reply.hijack();
  });
  done();
};
