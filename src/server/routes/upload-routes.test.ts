import { createHash, randomBytes } from "node:crypto";
import { existsSync } from "node:fs";
import { readdir, writeFile } from "node:fs/promises";
import { join } from "node:path";
import sharp from "sharp";
import { describe, expect, test } from "vitest";
import { testServer } from "../../../tests/test-server.ts";
import { photoLimitBytes, pieceBytes } from "../../api/upload.ts";
import { openOfOneDevice } from "../../store/upload-files.ts";

type Server = Awaited<ReturnType<typeof testServer>>;

/** Noise packs badly: some pieces and a rest. */
async function noisyPhoto(): Promise<Buffer> {
  const side = 1100;
  return sharp(randomBytes(side * side * 3), { raw: { width: side, height: side, channels: 3 } })
    .jpeg({ quality: 98 })
    .toBuffer();
}

const sha256 = (bytes: Buffer) => createHash("sha256").update(bytes).digest("hex");
const begin = (server: Server, bytes: Buffer) =>
  server.post("/api/uploads", { sha256: sha256(bytes), bytes: bytes.length, type: "image/jpeg" });

async function send({ app }: Server, id: string, offset: number, piece: Buffer) {
  const headers = { "content-type": "application/octet-stream" };
  const url = `/api/uploads/${id}?offset=${offset}`;
  const answer = await app.inject({ method: "PATCH", url, headers, payload: piece });
  return { status: answer.statusCode, json: answer.json() };
}

async function sendAll(server: Server, id: string, bytes: Buffer, from = 0) {
  let last = { status: 0, json: { offset: from, photo: null } as { offset: number; photo: unknown } };
  for (let at = from; at < bytes.length; at += pieceBytes)
    last = await send(server, id, at, bytes.subarray(at, at + pieceBytes));
  return last;
}

describe("a photograph in pieces", () => {
  test("is the same photograph as in one piece, and leaves nothing behind", async () => {
    const server = await testServer();
    const bytes = await noisyPhoto();
    expect(bytes.length).toBeGreaterThan(2 * pieceBytes);
    const begun = await begin(server, bytes);
    expect(begun.json).toMatchObject({ offset: 0, photo: null });
    const { json } = await sendAll(server, begun.json.id, bytes);
    expect(json.photo).toMatchObject({
      hash: sha256(bytes),
      bytes: bytes.length,
      widthPx: 1100,
      mediaType: "image/jpeg",
    });
    const back = await server.app.inject({ url: `/api/photos/${sha256(bytes)}` });
    expect(back.rawPayload.equals(bytes)).toBe(true);
    expect(await readdir(join(server.store.dir, "uploads"))).toEqual([]);
  });

  test("goes on where it was, whichever answer was lost", async () => {
    const server = await testServer();
    const bytes = await noisyPhoto();
    const { id } = (await begin(server, bytes)).json;
    const first = bytes.subarray(0, pieceBytes);
    expect((await send(server, id, 0, first)).json.offset).toBe(pieceBytes);
    // The answer was lost: the same piece again, the same beginning again, a piece that overlaps.
    expect((await send(server, id, 0, first)).json.offset).toBe(pieceBytes);
    expect((await begin(server, bytes)).json).toEqual({ id, offset: pieceBytes, photo: null });
    expect((await server.get(`/api/uploads/${id}`)).json.offset).toBe(pieceBytes);
    expect(
      (await send(server, id, pieceBytes - 100, bytes.subarray(pieceBytes - 100, pieceBytes + 900))).json.offset,
    ).toBe(pieceBytes + 900);
    const last = await sendAll(server, id, bytes, pieceBytes + 900);
    expect(last.json.photo).toMatchObject({ hash: sha256(bytes) });
    // The last answer was lost too.
    expect((await send(server, id, 0, first)).status).toBe(404);
    expect((await begin(server, bytes)).json).toMatchObject({ offset: bytes.length, photo: { hash: sha256(bytes) } });
  });

  test("at its place but without its row when the power went: sent again, it is stored once", async () => {
    const server = await testServer();
    const bytes = await noisyPhoto();
    const { id } = (await begin(server, bytes)).json;
    const { files } = server.store.photos;
    const path = join(server.store.dir, "uploads", `${id}.part`);
    await writeFile(path, bytes);
    await files.keep({ path, hash: sha256(bytes), bytes: bytes.length }, "image/jpeg");
    expect((await server.get(`/api/photos/${sha256(bytes)}`)).status).toBe(404);
    expect((await begin(server, bytes)).json).toEqual({ id, offset: 0, photo: null });
    expect((await sendAll(server, id, bytes)).json.photo).toMatchObject({ hash: sha256(bytes) });
    expect((await server.app.inject({ url: `/api/photos/${sha256(bytes)}` })).rawPayload.equals(bytes)).toBe(true);
    expect(await readdir(join(server.store.dir, "uploads"))).toEqual([]);
  });

  test("never takes two pieces at once to one place", async () => {
    const server = await testServer();
    const bytes = await noisyPhoto();
    const { id } = (await begin(server, bytes)).json;
    const piece = bytes.subarray(0, pieceBytes);
    const both = await Promise.all([send(server, id, 0, piece), send(server, id, 0, piece)]);
    expect(both.map(({ json }) => json.offset)).toEqual([pieceBytes, pieceBytes]);
  });

  test("is refused where it leaves a gap, goes beyond its end, or is no such content", async () => {
    const server = await testServer();
    const bytes = await noisyPhoto();
    const { id } = (await begin(server, bytes)).json;
    const gap = await send(server, id, 100, bytes.subarray(100, 200));
    expect(gap).toMatchObject({
      status: 422,
      json: { detail: "offset is 100; expected at most 0: so much is in the shop" },
    });
    await sendAll(server, id, bytes.subarray(0, 2 * pieceBytes));
    expect((await send(server, id, 2 * pieceBytes, Buffer.alloc(pieceBytes))).status).toBe(422);
    const wrong = Buffer.from(bytes.subarray(2 * pieceBytes));
    wrong[10]! ^= 1;
    const last = await sendAll(server, id, Buffer.concat([bytes.subarray(0, 2 * pieceBytes), wrong]), 2 * pieceBytes);
    expect(last).toMatchObject({ status: 422, json: { detail: expect.stringMatching(/^sha256 is/) } });
    // Given up, so that it can be begun anew.
    expect((await begin(server, bytes)).json.offset).toBe(0);
    expect((await server.get(`/api/photos/${sha256(bytes)}`)).status).toBe(404);
  });

  test("has limits on its size and on its pieces", async () => {
    const server = await testServer();
    const large = { sha256: "0".repeat(64), bytes: photoLimitBytes + 1, type: "image/jpeg" };
    expect((await server.post("/api/uploads", large)).status).toBe(422);
    const { id } = (await server.post("/api/uploads", { ...large, bytes: photoLimitBytes })).json;
    expect((await send(server, id, 0, Buffer.alloc(pieceBytes + 1))).status).toBe(413);
  });

  test("makes room where a device left too many unfinished, and is given up after a week", async () => {
    let now = new Date("2026-05-03T10:00:00Z");
    const server = await testServer({ now: () => now });
    const photos = Array.from({ length: openOfOneDevice + 1 }, () => randomBytes(1000));
    const ids: string[] = [];
    for (const bytes of photos) {
      ids.push((await begin(server, bytes)).json.id);
      now = new Date(now.getTime() + 60_000);
    }
    expect((await server.get(`/api/uploads/${ids[0]}`)).status).toBe(404);
    for (const id of ids.slice(1)) expect((await server.get(`/api/uploads/${id}`)).status).toBe(200);
    now = new Date("2026-05-11T10:00:00Z");
    await begin(server, photos[0]!);
    const left = (await readdir(join(server.store.dir, "uploads"))).filter((name) => name.endsWith(".part"));
    expect(left).toHaveLength(1);
    expect(existsSync(join(server.store.dir, "uploads", `${ids[1]}.part`))).toBe(false);
  });
});
