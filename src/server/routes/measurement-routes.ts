/** Photographs to numbers: asked for, watched, cancelled, corrected by hand. */
import { isDeepStrictEqual } from "node:util";
import type { FastifyPluginCallbackZod } from "fastify-type-provider-zod";
import * as z from "zod/mini";
import { handCorrection, type Job, job, measurement, measurementRequest } from "../../api/photo.ts";
import { InputError } from "../../core/input-error.ts";
import { Conflict } from "../../store/conflict.ts";
import type { ShopStore } from "../../store/open-shop.ts";
import { correctionWork, firstOf, measureWork, modelOf } from "../measure-work.ts";
import { NotFound } from "../problem-details.ts";
import type { ServedShop } from "../served-shop.ts";

const withId = z.strictObject({ id: z.uuid() });

export const measurementRoutes: FastifyPluginCallbackZod<ServedShop> = (app, served, done) => {
  const { store, jobs } = served;

  app.post(
    "/api/measurements",
    { schema: { body: measurementRequest, response: { 202: job } } },
    async ({ body: request }, reply) => {
      reply.code(202);
      const known = await store.measurements.find(request.id);
      if (known && (known.byHand || !isDeepStrictEqual(known.request, request)))
        throw new Conflict("id", request.id, "another measurement has it");
      if (known) return finished(request.id);
      const photo = await store.photos.find(request.photo);
      if (!photo) throw new InputError("photo", request.photo, "the hash of a photograph in this shop");
      // Refused here, beside their fields, and not later by the job.
      await Promise.all([modelOf(store, request.shopModel), firstOf(store, request)]);
      return jobs.start(request.id, measureWork(served, photo, request));
    },
  );

  app.post(
    "/api/measurements/:id/corrections",
    { bodyLimit: 8_000_000, schema: { params: withId, body: handCorrection, response: { 202: job } } },
    async ({ params, body: correction }, reply) => {
      reply.code(202);
      const from = await findMeasurement(store, params.id);
      const known = await store.measurements.find(correction.id);
      if (known && (known.byHand?.from !== from.id || known.byHand.why !== correction.why))
        throw new Conflict("id", correction.id, "another measurement has it");
      if (known) return finished(correction.id);
      return jobs.start(correction.id, correctionWork(served, from, correction));
    },
  );

  app.get("/api/measurements/:id", { schema: { params: withId, response: { 200: measurement } } }, ({ params }) =>
    findMeasurement(store, params.id),
  );

  app.get("/api/jobs/:id", { schema: { params: withId, response: { 200: job } } }, async ({ params }) => {
    const found = jobs.find(params.id);
    if (found) return found;
    // Jobs end with the server that ran them; what they brought stays.
    if (await store.measurements.find(params.id)) return finished(params.id);
    throw noJob(params.id);
  });

  app.delete("/api/jobs/:id", { schema: { params: withId, response: { 200: job } } }, ({ params }) => {
    const cancelled = jobs.cancel(params.id);
    if (!cancelled) throw noJob(params.id);
    return cancelled;
  });
  done();
};

/** A job has the id of the measurement that comes of it. */
function finished(id: string): Job {
  return { id, state: "done", progress: 1, failure: null, refusal: null };
}

async function findMeasurement(store: ShopStore, id: string) {
  const found = await store.measurements.find(id);
  if (!found) throw new NotFound(`no measurement ${id} in this shop`);
  return found;
}

function noJob(id: string) {
  return new NotFound(`no job ${id} since this server was started; ask for the measurement again`);
}
