/** The HTTP face of a shop: routes, their schemas, how errors leave, who may ask. Listens nowhere yet. */
import swagger from "@fastify/swagger";
import fastify, { type FastifyInstance } from "fastify";
import {
  jsonSchemaTransform,
  jsonSchemaTransformObject,
  serializerCompiler,
  type ZodTypeProvider,
} from "fastify-type-provider-zod";
import { addSafetyHeaders } from "./local-only.ts";
import { servePage } from "./page-files.ts";
import { answerProblem, bodyLimitBytes, sendProblem, validatorCompiler } from "./problem-details.ts";
import { calendarRoutes } from "./routes/calendar-routes.ts";
import { colourRoutes } from "./routes/colour-routes.ts";
import { demoRoutes } from "./routes/demo-routes.ts";
import { eyeRoutes } from "./routes/eye-routes.ts";
import { importRoutes } from "./routes/import-routes.ts";
import { measurementRoutes } from "./routes/measurement-routes.ts";
import { photoRoutes } from "./routes/photo-routes.ts";
import { reportRoutes } from "./routes/report-routes.ts";
import { rustModelRoutes } from "./routes/rust-model-routes.ts";
import { sharingRoutes } from "./routes/sharing-routes.ts";
import { shopRoutes } from "./routes/shop-routes.ts";
import { siteRoutes } from "./routes/site-routes.ts";
import { tapeRoutes } from "./routes/tape-routes.ts";
import { todayRoutes } from "./routes/today-routes.ts";
import { trialRoutes } from "./routes/trial-routes.ts";
import { uploadRoutes } from "./routes/upload-routes.ts";
import type { ServedShop } from "./served-shop.ts";
import { guardAccess } from "./sharing/access-guard.ts";

export async function shopApp(served: ServedShop, webDir: string): Promise<FastifyInstance> {
  const app = fastify({
    bodyLimit: bodyLimitBytes,
    // What the router cannot read comes by no hook; the guard has not looked at it, and nothing of the shop is in the answer.
    frameworkErrors: (error, request, reply) => {
      void addSafetyHeaders(request, reply);
      sendProblem(reply, { status: error.statusCode ?? 400, detail: "this address cannot be read" });
    },
    logger: { level: "error", stream: process.stderr },
    forceCloseConnections: true,
  });
  app.setValidatorCompiler(validatorCompiler);
  app.setSerializerCompiler(serializerCompiler);
  app.setErrorHandler(answerProblem);
  app.addHook("onSend", addSafetyHeaders);
  await guardAccess(app, served.sharing);
  await app.register(swagger, {
    openapi: { openapi: "3.1.0", info: { title: "Coatwright", version: "0.1.0" } },
    // Both, or the document refers to schemas that it does not hold.
    transform: jsonSchemaTransform,
    transformObject: jsonSchemaTransformObject,
  });
  const routes = app.withTypeProvider<ZodTypeProvider>();
  await routes.register(shopRoutes, served);
  await routes.register(trialRoutes, served);
  await routes.register(importRoutes, served);
  await routes.register(photoRoutes, served);
  await routes.register(uploadRoutes, served);
  await routes.register(measurementRoutes, served);
  await routes.register(rustModelRoutes, served);
  await routes.register(tapeRoutes, served);
  await routes.register(colourRoutes, served);
  await routes.register(eyeRoutes, served);
  await routes.register(reportRoutes, served);
  await routes.register(calendarRoutes, served);
  await routes.register(siteRoutes, served);
  await routes.register(todayRoutes, served);
  await routes.register(demoRoutes, served);
  await routes.register(sharingRoutes, served);
  app.get("/openapi.json", { schema: { hide: true } }, () => app.swagger());
  await servePage(app, webDir);
  return app;
}
