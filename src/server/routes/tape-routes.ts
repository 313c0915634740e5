/** Tape tests read from photographs: two of them in, percent, map and class out. Nothing is kept here but the drawing. */
import { fileURLToPath } from "node:url";
import type { FastifyPluginCallbackZod } from "fastify-type-provider-zod";
import { Piscina } from "piscina";
import { type TapeReadingAnswer, tapeReadingAnswer, tapeReadingRequest } from "../../api/tape-photo.ts";
import { InputError } from "../../core/input-error.ts";
import { inFolder, keep, printScaleOf } from "../measure-work.ts";
import type { ReadTape, TapeTask } from "../photos/read-tape.ts";
import type { ServedShop } from "../served-shop.ts";

/** Reading takes a few seconds: one that is still at it after this long will not end. */
const longestMs = 120_000;

export const tapeRoutes: FastifyPluginCallbackZod<ServedShop> = (app, { store, now }, done) => {
  const pool = new Piscina<TapeTask, ReadTape>({
    filename: fileURLToPath(new URL("../photos/tape-worker.js", import.meta.url)),
    minThreads: 0,
    maxThreads: 1,
    idleTimeout: 30_000,
  });
  app.addHook("onClose", () => pool.close({ force: true }));

  app.post(
    "/api/tape-readings",
    { schema: { body: tapeReadingRequest, response: { 200: tapeReadingAnswer } } },
    async ({ body: request }, reply) => {
      // Who cancels closes the connection: the thread is freed for the next pair.
      const left = new AbortController();
      reply.raw.once("close", () => {
        if (!reply.raw.writableEnded) left.abort();
      });
      const pathOf = async (which: "before" | "after") => {
        const found = await store.photos.find(request[which].photo);
        if (!found)
          throw new InputError(`${which}.photo`, request[which].photo, "the hash of a photograph in this shop");
        return store.photos.files.pathOf(found);
      };
      const [beforePath, afterPath] = [await pathOf("before"), await pathOf("after")];
      return inFolder(store, async (outDir): Promise<TapeReadingAnswer> => {
        const signal = AbortSignal.any([AbortSignal.timeout(longestMs), left.signal]);
        const printScale = await printScaleOf(store);
        const found = await pool
          .run({ beforePath, afterPath, request, printScale, outDir }, { signal })
          .catch((error: unknown): ReadTape => {
            // Who left asked for it: that is no fault to be written into the log.
            if (left.signal.aborted) return { read: false, sentence: "The reading was stopped." };
            throw error;
          });
        if (!found.read) return found;
        const overlay = await keep(store, found.overlayPath, "image/jpeg", now().toISOString());
        const { photo: before } = request.before;
        const { photo: after } = request.after;
        return { read: true, reading: { ...found.numbers, before, after, overlay } };
      });
    },
  );
  done();
};
