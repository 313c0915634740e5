/** The demonstration shop, opened beside this one: invented data never mix with the user's own. */
import type { FastifyPluginCallbackZod } from "fastify-type-provider-zod";
import { demoOpened } from "../../api/shop.ts";
import type { ServedShop } from "../served-shop.ts";

export const demoRoutes: FastifyPluginCallbackZod<ServedShop> = (app, { openDemo }, done) => {
  if (openDemo)
    app.post("/api/demo", { schema: { response: { 200: demoOpened } } }, async () => {
      const { url } = await openDemo();
      return { url };
    });
  done();
};
