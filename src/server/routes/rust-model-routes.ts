/** Strokes on a measured photograph: tried, kept as a model of the shop's own, and chosen for a trial. */
import type { FastifyPluginCallbackZod } from "fastify-type-provider-zod";
import * as z from "zod/mini";
import type { BrushStroke, ShopModelName } from "../../api/photo.ts";
import {
  type ChosenModel,
  chosenModel,
  chosenReading,
  listedModel,
  modelToSave,
  savedModel,
  strokesToTry,
  triedStrokes,
} from "../../api/rust-model.ts";
import { InputError } from "../../core/input-error.ts";
import type { ShopStore } from "../../store/open-shop.ts";
import { modelOf } from "../measure-work.ts";
import { NotFound } from "../problem-details.ts";
import type { ServedShop } from "../served-shop.ts";

const withId = z.strictObject({ id: z.uuid() });
const bodyLimit = 8_000_000;

export const rustModelRoutes: FastifyPluginCallbackZod<ServedShop> = (app, served, done) => {
  const { store, now } = served;

  app.post(
    "/api/measurements/:id/model-preview",
    { bodyLimit, schema: { params: withId, body: strokesToTry, response: { 200: triedStrokes } } },
    async ({ params, body }) => {
      const { rustedPercent, edgePercent, d610, overlayJpeg } = await adapted(served, { ...body, id: params.id });
      const overlay = `data:image/jpeg;base64,${Buffer.from(overlayJpeg).toString("base64")}`;
      return { rustedPercent, edgePercent, d610, overlay };
    },
  );

  app.get("/api/rust-models", { schema: { response: { 200: z.array(listedModel) } } }, async () => {
    const users = await chosenByTrials(store);
    return (await store.rustModels.all()).map(({ saved }) => ({
      ...saved,
      trials: users
        .filter(({ shopModel }) => isSame(shopModel, saved))
        .map(({ id, name: trial }) => ({ id, name: trial })),
    }));
  });

  app.post(
    "/api/rust-models",
    { bodyLimit, schema: { body: modelToSave, response: { 201: savedModel } } },
    async ({ body }, reply) => {
      const { name, finishAndLight, by, measurement, strokes, from } = body;
      const { model } = await adapted(served, { id: measurement, strokes, from });
      const savedAt = now().toISOString();
      const kept = await store.rustModels.add(
        name,
        (version) => ({
          saved: {
            ...{ name, version, finishAndLight, by, measurement },
            ...{ strokes: strokes.length, from: from ?? null, savedAt },
          },
          model: { ...model, name: `${programsPart(model.name)}${adaptedMark}${name}, version ${version}` },
          strokes,
        }),
        savedAt,
      );
      reply.code(201);
      return kept.saved;
    },
  );

  const ofTrial = { schema: { params: withId, response: { 200: chosenReading } } };
  app.get("/api/trials/:id/rust-model", ofTrial, async ({ params }) =>
    readingBy(store, await store.rustModels.chosen(params.id)),
  );

  app.put(
    "/api/trials/:id/rust-model",
    { schema: { ...ofTrial.schema, body: chosenModel } },
    async ({ params, body }) => {
      if (!(await store.trials.find(params.id))) throw new NotFound(`no trial ${params.id} in this shop`);
      const reading = await readingBy(store, body);
      await store.rustModels.choose(params.id, body, now().toISOString());
      return reading;
    },
  );
  done();
};

async function readingBy(store: ShopStore, { shopModel }: ChosenModel) {
  return { shopModel, method: (await modelOf(store, shopModel ?? undefined)).name };
}

/** Refined again and again, a model is named by the program's own and by its last version; the rest stands in `from`. */
const adaptedMark = "; adapted: ";
const programsPart = (method: string) => method.split(adaptedMark)[0]!;

const isSame = (one: ShopModelName | null, { name, version }: ShopModelName) =>
  one?.name === name && one.version === version;

async function chosenByTrials(store: ShopStore) {
  const trials = await store.trials.list();
  return Promise.all(trials.map(async ({ id, name }) => ({ id, name, ...(await store.rustModels.chosen(id)) })));
}

async function adapted(
  { store, measurer }: ServedShop,
  { id, strokes, from }: { id: string; strokes: BrushStroke[]; from?: ShopModelName | undefined },
) {
  const measured = await store.measurements.find(id);
  if (!measured) throw new NotFound(`no measurement ${id} in this shop`);
  const { request, pxPerMm, rectified } = measured;
  const rectifiedPath = store.photos.files.pathOf({ hash: rectified, mediaType: "image/jpeg" });
  const model = await modelOf(store, from);
  const fitted = await measurer.adapt({ rectifiedPath, pxPerMm, request, strokes, from: model });
  if (!fitted)
    throw new InputError("strokes", "beside the coupon", "strokes on the coupon, on rust and on what is not rust");
  return fitted;
}
