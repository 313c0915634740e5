import { createHash, randomBytes } from "node:crypto";
import { readdir } from "node:fs/promises";
import { connect } from "node:net";
import { join } from "node:path";
import { Readable } from "node:stream";
import sharp from "sharp";
import { describe, expect, onTestFinished, test } from "vitest";
import { sharedShop } from "../../../tests/network-side.ts";
import { testServer } from "../../../tests/test-server.ts";
import { photoLimitBytes } from "../../api/upload.ts";

type Server = Awaited<ReturnType<typeof testServer>>;

const picture = (width: number, height: number) =>
  sharp({ create: { width, height, channels: 3, background: { r: 150, g: 70, b: 30 } } });

/** As a browser sends a file: one part of a form. */
function form(chunks: Iterable<Buffer>, name: string) {
  const head = `--part\r\ncontent-disposition: form-data; name="photo"; filename="${name}"\r\n\r\n`;
  return Readable.from(
    (function* () {
      yield Buffer.from(head);
      yield* chunks;
      yield Buffer.from("\r\n--part--\r\n");
    })(),
  );
}

async function upload({ app }: Server, chunks: Iterable<Buffer>, name = "coupon 7.jpg") {
  const headers = { "content-type": "multipart/form-data; boundary=part" };
  const answer = await app.inject({ method: "POST", url: "/api/photos", headers, payload: form(chunks, name) });
  return { status: answer.statusCode, json: answer.json() };
}

describe("a photograph", () => {
  test("comes back byte for byte under the hash of its content", async () => {
    const server = await testServer();
    // Lying on its side, as phones write them: upright it is 30 wide.
    const bytes = await picture(40, 30).withMetadata({ orientation: 6 }).jpeg().toBuffer();
    const { status, json } = await upload(server, [bytes]);
    const hash = createHash("sha256").update(bytes).digest("hex");
    expect(status).toBe(201);
    expect(json).toEqual({
      hash,
      mediaType: "image/jpeg",
      bytes: bytes.length,
      widthPx: 30,
      heightPx: 40,
      takenAt: null,
    });
    const back = await server.app.inject({ url: `/api/photos/${hash}` });
    expect(back.rawPayload.equals(bytes)).toBe(true);
    expect(back.headers).toMatchObject({
      "content-type": "image/jpeg",
      "cache-control": expect.stringMatching(/immutable/),
    });
  });

  test("is small on demand, upright, and without what the camera wrote", async () => {
    const server = await testServer();
    const bytes = await picture(400, 300)
      .withMetadata({ orientation: 6 })
      .withExifMerge({ IFD0: { Copyright: "the shed" }, IFD3: { GPSLatitude: "51/1 30/1 0/1" } })
      .jpeg()
      .toBuffer();
    const { json } = await upload(server, [bytes]);
    for (const _ of ["made", "kept"]) {
      const small = await server.app.inject({ url: `/api/photos/${json.hash}?width=160` });
      const { width, height, exif, orientation } = await sharp(small.rawPayload).metadata();
      expect({ width, height, exif, orientation }).toEqual({
        width: 160,
        height: 213,
        exif: undefined,
        orientation: undefined,
      });
    }
    expect((await server.app.inject({ url: `/api/photos/${json.hash}?width=161` })).statusCode).toBe(422);
  });

  const whole = () => picture(400, 300).jpeg().toBuffer();
  test.each<[string, () => Promise<Buffer> | Buffer, RegExp]>([
    ["of 0 bytes", () => Buffer.alloc(0), /empty file \(0 bytes\)/],
    [
      "that is a text named .jpg",
      () => Buffer.from("coupon,treatment\n1,wax\n"),
      /not a picture .* whatever its name says/,
    ],
    ["that stops in the middle", async () => (await whole()).subarray(0, 900), /damaged or cut short/],
    ["30,000 px wide", () => picture(30_000, 10).jpeg().toBuffer(), /30000 x 10 px"; expected at most/],
    ["without colour", () => picture(40, 30).toColourspace("b-w").jpeg().toBuffer(), /expected a colour photograph/],
  ])("%s is refused in words, and leaves nothing", async (_what, make, words) => {
    const server = await testServer();
    const { status, json } = await upload(server, [await make()]);
    expect({ status, detail: json.detail }).toEqual({ status: 422, detail: expect.stringMatching(words) });
    expect(await readdir(join(server.store.dir, "photos", "incoming"))).toEqual([]);
    expect((await upload(server, [await whole()])).status).toBe(201);
  });

  test("above the limit is refused with the limit, and leaves nothing", async () => {
    const server = await testServer();
    const megabyte = Buffer.alloc(1_000_000);
    function* tooMuch() {
      for (let sent = 0; sent <= photoLimitBytes; sent += megabyte.length) yield megabyte;
    }
    const { status, json } = await upload(server, tooMuch());
    expect({ status, detail: json.detail }).toEqual({
      status: 413,
      detail: "the photograph is too large; expected at most 60 MB",
    });
    expect(await readdir(join(server.store.dir, "photos", "incoming"))).toEqual([]);
  });

  test("that was not sent as a file is asked for", async () => {
    const { post } = await testServer();
    expect((await post("/api/photos", { photo: "7.jpg" })).status).toBe(406);
  });
});

test("whole photographs that a device asks for and does not read fill no memory, and keep nobody else waiting", async () => {
  const { address, pair } = await sharedShop();
  const [helper, viewer] = [await pair("helper"), await pair("viewer")];
  const side = 2200;
  // More than the buffers between two ends hold.
  const noise = await sharp(randomBytes(side * side * 3), { raw: { width: side, height: side, channels: 3 } })
    .png({ compressionLevel: 0 })
    .toBuffer();
  const body = new FormData();
  body.append("photo", new Blob([new Uint8Array(noise)]), "noise.png");
  const headers = { cookie: helper.cookie, origin: address().origin };
  const { hash } = await (await fetch(new URL("/api/photos", address()), { method: "POST", headers, body })).json();
  const { host, port } = address();
  const answered: number[] = [];
  for (const one of [1, 2, 3, 4]) {
    const socket = connect({ host: "127.0.0.1", port: Number(port) });
    onTestFinished(() => void socket.destroy());
    socket
      .on("error", () => {})
      .once("data", () => {
        answered.push(one);
        socket.pause();
      });
    socket.write(`GET /api/photos/${hash} HTTP/1.1\r\nHost: ${host}\r\nCookie: ${viewer.cookie}\r\n\r\n`);
  }
  // Long enough for all four, where all four are answered.
  for (let at = 0; at < 3; at++) expect((await helper.as(`/api/photos/${hash}`)).status).toBe(200);
  expect(answered).toHaveLength(2);
  expect((await viewer.as("/api/shop")).status).toBe(200);
});
