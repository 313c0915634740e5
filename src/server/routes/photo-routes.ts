/** Photographs: streamed in, checked by their content, given back whole or small; never with where they were taken. */
import { createReadStream } from "node:fs";
import { readFile } from "node:fs/promises";
import type { ServerResponse } from "node:http";
import multipart from "@fastify/multipart";
import type { FastifyPluginAsyncZod } from "fastify-type-provider-zod";
import * as z from "zod/mini";
import { contentHash, type Photo, photo, previewWidths } from "../../api/photo.ts";
import { photoLimitBytes } from "../../api/upload.ts";
import { InputError } from "../../core/input-error.ts";
import { withoutPlace } from "../../store/leaving/without-place.ts";
import { type Turns, turns } from "../in-turn.ts";
import { readPhoto } from "../photos/read-photo.ts";
import { previewFile } from "../preview-file.ts";
import { NotFound, TooLarge } from "../problem-details.ts";
import type { ServedShop } from "../served-shop.ts";

const width = z.optional(
  z.pipe(
    z.pipe(
      z.string(),
      z.transform((text) => Number(text)),
    ),
    z.literal(previewWidths),
  ),
);

/** Of one device at once: each is in memory until it has been read, and who never reads it must not fill that. */
const wholeOfOneDevice = 2;

export const photoRoutes: FastifyPluginAsyncZod<ServedShop> = async (app, { store, now }) => {
  const whole = new Map<string, Turns>();
  /** Null: who asked has gone away meanwhile. */
  const wholePhoto = async (found: Photo, device: string, answer: ServerResponse): Promise<Buffer | null> => {
    const ofDevice = whole.get(device) ?? turns(wholeOfOneDevice);
    whole.set(device, ofDevice);
    const giveBack = await ofDevice.take();
    if (answer.destroyed) {
      giveBack();
      return null;
    }
    answer.once("close", giveBack);
    return withoutPlace(await readFile(store.photos.files.pathOf(found)), found.mediaType);
  };
  await app.register(multipart, { limits: { fileSize: photoLimitBytes, files: 1, fields: 0 } });

  app.post(
    "/api/photos",
    { schema: { consumes: ["multipart/form-data"], response: { 201: photo } } },
    async (request, reply) => {
      const upload = await request.file();
      if (!upload) throw new InputError("photo", undefined, "one file in a multipart form");
      const arrived = await store.photos.files.arrive(upload.file);
      try {
        // The stream ends early, without an error, where the limit cuts it.
        if (upload.file.truncated) throw new TooLarge("the photograph", photoLimitBytes);
        const facts = await readPhoto(arrived.path);
        reply.code(201);
        return await store.photos.add(arrived, facts, now().toISOString());
      } catch (error) {
        await store.photos.files.discard(arrived);
        throw error;
      }
    },
  );

  app.get(
    "/api/photos/:hash",
    { schema: { params: z.strictObject({ hash: contentHash }), querystring: z.strictObject({ width }) } },
    async ({ params, query, device }, reply) => {
      const found = await store.photos.find(params.hash);
      if (!found) throw new NotFound(`no photograph ${params.hash} in this shop`);
      // The name stands for the content, so what was fetched once never changes.
      reply.header("cache-control", "private, max-age=31536000, immutable");
      if (query.width === undefined) {
        const bytes = await wholePhoto(found, device?.id ?? "", reply.raw);
        return bytes === null ? reply.hijack() : reply.type(found.mediaType).send(bytes);
      }
      return reply.type("image/jpeg").send(createReadStream(await previewFile(store, found, query.width)));
    },
  );
};
