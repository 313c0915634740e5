/** Finish colours read from a photograph: one of them in, colour, evenness and map out. Nothing is kept here but the map. */
import { fileURLToPath } from "node:url";
import type { FastifyPluginCallbackZod } from "fastify-type-provider-zod";
import { Piscina } from "piscina";
import { type ColourReadingAnswer, colourReadingAnswer, colourReadingRequest } from "../../api/finish-colour.ts";
import { InputError } from "../../core/input-error.ts";
import { inFolder, keep, printScaleOf } from "../measure-work.ts";
import type { ColourTask, ReadColour } from "../photos/read-colour.ts";
import type { ServedShop } from "../served-shop.ts";

/** Reading takes a second or two: one that is still at it after this long will not end. */
const longestMs = 120_000;

export const colourRoutes: FastifyPluginCallbackZod<ServedShop> = (app, { store, now }, done) => {
  const pool = new Piscina<ColourTask, ReadColour>({
    filename: fileURLToPath(new URL("../photos/colour-worker.js", import.meta.url)),
    minThreads: 0,
    maxThreads: 1,
    idleTimeout: 30_000,
  });
  app.addHook("onClose", () => pool.close({ force: true }));

  app.post(
    "/api/colour-readings",
    { schema: { body: colourReadingRequest, response: { 200: colourReadingAnswer } } },
    async ({ body: request }) => {
      const photo = await store.photos.find(request.photo);
      if (!photo) throw new InputError("photo", request.photo, "the hash of a photograph in this shop");
      const photoPath = store.photos.files.pathOf(photo);
      const printScale = await printScaleOf(store);
      return inFolder(store, async (outDir): Promise<ColourReadingAnswer> => {
        const signal = AbortSignal.timeout(longestMs);
        const found = await pool.run({ photoPath, request, printScale, outDir }, { signal });
        if (!found.read) return found;
        const map = await keep(store, found.mapPath, "image/jpeg", now().toISOString());
        return { read: true, reading: { ...found.numbers, photo: request.photo, map } };
      });
    },
  );
  done();
};
