/** Tests of an inspector's eye on plates of known rust. */
import type { FastifyPluginCallbackZod } from "fastify-type-provider-zod";
import * as z from "zod/mini";
import { type EyeTest, eyeTest, newEyeTest } from "../../api/eye-test.ts";
import { requireEyeReadings } from "../../core/rating/eye-agreement.ts";
import { platePercent, plateSeries } from "../../core/rating/rust-plate.ts";
import type { ServedShop } from "../served-shop.ts";

export const eyeRoutes: FastifyPluginCallbackZod<ServedShop> = (app, { store, events, now }, done) => {
  app.get("/api/eye-tests", { schema: { response: { 200: z.array(eyeTest) } } }, () => store.eyeTests.all());

  app.post(
    "/api/eye-tests",
    { schema: { body: newEyeTest, response: { 201: eyeTest } } },
    async ({ body }, reply): Promise<EyeTest> => {
      const truePercents = plateSeries(body.seed).map(platePercent);
      const readings = body.read.map((read, at) => ({ read, truePercent: truePercents[at]! }));
      requireEyeReadings({ way: body.way, readings });
      const kept = await store.eyeTests.add({ ...body, truePercents, recordedAt: now().toISOString() });
      events.send({ changed: "shop" });
      reply.code(201);
      return kept;
    },
  );
  done();
};
