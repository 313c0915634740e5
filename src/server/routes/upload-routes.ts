/** Large photographs in pieces: begun, gone on with after a broken line or a killed server, and then as any photograph. */
import type { FastifyPluginAsyncZod } from "fastify-type-provider-zod";
import * as z from "zod/mini";
import type { Photo } from "../../api/photo.ts";
import { newUpload, pieceBytes, uploadId, uploadState } from "../../api/upload.ts";
import { InputError } from "../../core/input-error.ts";
import { hashOfFile } from "../../store/photo-files.ts";
import type { Upload } from "../../store/upload-files.ts";
import { readPhoto } from "../photos/read-photo.ts";
import { NotFound } from "../problem-details.ts";
import type { ServedShop } from "../served-shop.ts";

const params = z.strictObject({ id: uploadId });
const offset = z.pipe(
  z.pipe(
    z.string().check(z.regex(/^\d{1,9}$/)),
    z.transform((text) => Number(text)),
  ),
  z.int(),
);

export const uploadRoutes: FastifyPluginAsyncZod<ServedShop> = async (app, { store, now }) => {
  const { uploads, photos } = store;
  const inTurn = turns();
  app.addContentTypeParser("application/octet-stream", { parseAs: "buffer" }, (_request, body, done) => {
    done(null, body);
  });

  app.post(
    "/api/uploads",
    { schema: { body: newUpload, response: { 200: uploadState } } },
    async ({ body, device }) => {
      const wanted = { ...body, device: device?.id ?? "" };
      return inTurn("begin", async () => {
        const known = await photos.find(body.sha256);
        const upload = await uploads.open(wanted, now());
        if (!known) return stateOf(upload);
        await uploads.discard(upload);
        return { id: upload.id, offset: known.bytes, photo: known };
      });
    },
  );

  app.get("/api/uploads/:id", { schema: { params, response: { 200: uploadState } } }, async ({ params, device }) =>
    inTurn(params.id, async () => stateOf(await ofDevice(params.id, device?.id))),
  );

  app.patch(
    "/api/uploads/:id",
    {
      bodyLimit: pieceBytes,
      schema: { params, querystring: z.strictObject({ offset }), response: { 200: uploadState } },
    },
    async ({ params, query, device, body }) => {
      if (!Buffer.isBuffer(body)) throw new InputError("body", typeof body, "a piece of the file, as octets");
      const bytes: Buffer = body;
      return inTurn(params.id, async () => {
        const upload = await ofDevice(params.id, device?.id);
        const at = await uploads.offset(upload);
        if (query.offset > at) throw new InputError("offset", query.offset, `at most ${at}: so much is in the shop`);
        const end = query.offset + bytes.length;
        if (end > upload.bytes)
          throw new InputError("offset", query.offset, `an end by ${upload.bytes}, not at ${end}`);
        await uploads.add(upload, { offset: query.offset, bytes }, now());
        return stateOf(upload);
      });
    },
  );

  async function ofDevice(id: string, device = ""): Promise<Upload> {
    const upload = await uploads.find(id);
    if (upload?.device !== device) throw new NotFound(`no upload ${id} of this device is open`);
    return upload;
  }

  /** Whole, it becomes a photograph here, so that a server killed just before goes on with that too. */
  async function stateOf(upload: Upload) {
    const at = await uploads.offset(upload);
    const photo = at === upload.bytes ? await finished(upload) : null;
    return { id: upload.id, offset: at, photo };
  }

  async function finished(upload: Upload): Promise<Photo> {
    const path = uploads.pathOf(upload);
    try {
      const hash = await hashOfFile(path);
      if (hash !== upload.sha256) throw new InputError("sha256", upload.sha256, `${hash}, as what arrived`);
      return await photos.add({ path, hash, bytes: upload.bytes }, await readPhoto(path), now().toISOString());
    } finally {
      await uploads.discard(upload);
    }
  }
};

/** Lets nobody write to one upload while another does. */
function turns() {
  const last = new Map<string, Promise<unknown>>();
  return <Result>(id: string, act: () => Promise<Result>): Promise<Result> => {
    const mine = (last.get(id) ?? Promise.resolve()).then(act, act);
    last.set(id, mine);
    const done = () => {
      if (last.get(id) === mine) last.delete(id);
    };
    mine.then(done, done);
    return mine;
  };
}
