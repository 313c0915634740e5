/** Every road on which a picture leaves the shop: none of them tells where it was taken, and the original stays as it came. */
import { createHash, randomUUID } from "node:crypto";
import { readFile } from "node:fs/promises";
import sharp from "sharp";
import { expect, test, vi } from "vitest";
import { renderCoupon } from "../../tests/rendered-coupon.ts";
import { testServer } from "../../tests/test-server.ts";
import type { Measurement } from "../api/photo.ts";
import type { Measurer } from "./measure-pool.ts";
import { adaptToStrokes } from "./photos/adapt-model.ts";
import { measurePhoto } from "./photos/measure-photo.ts";

const inThisThread: Measurer = {
  run: (task, { progress }) => {
    if (task.kind !== "measure") throw new Error("this test corrects nothing");
    return measurePhoto({ ...task, progress });
  },
  adapt: adaptToStrokes,
  close: async () => {},
};

const sizeMm = { lengthMm: 60, widthMm: 40 };
const place = "behind the shed at 51.5 N";

/** A coupon as a phone takes it, with its place in the file. */
async function placedCoupon() {
  const of = { seed: 9, number: "4", finish: "phosphate dry", sizeMm, edgeBandMm: 5, look: 0, widthPx: 500 } as const;
  const { rgb, widthPx, heightPx, cornersPx } = renderCoupon({ ...of, rustedPercent: 8, edgePercent: 8 });
  const bytes = await sharp(rgb, { raw: { width: widthPx, height: heightPx, channels: 3 } })
    .withExif({
      IFD0: { ImageDescription: place },
      IFD3: { GPSLatitudeRef: "N", GPSLatitude: "51/1 30/1 0/1", GPSDateStamp: place },
    })
    .withXmp(
      `<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#"><rdf:Description rdf:about="" xmlns:photoshop="http://ns.adobe.com/photoshop/1.0/" photoshop:City="${place}, by XMP"/></rdf:RDF></x:xmpmeta>`,
    )
    .jpeg({ quality: 92 })
    .toBuffer();
  return { bytes, cornersPx: cornersPx.map(([x, y]) => [x, y]) };
}

test("original, small copy, cut-out coupon, outline, mask and report leave without the place", async () => {
  const server = await testServer({ measurer: inThisThread });
  const { bytes, cornersPx } = await placedCoupon();
  for (const told of [place, `${place}, by XMP`]) expect(bytes.includes(told)).toBe(true);
  const payload = Buffer.concat([
    Buffer.from('--part\r\ncontent-disposition: form-data; name="photo"; filename="4.jpg"\r\n\r\n'),
    bytes,
    Buffer.from("\r\n--part--\r\n"),
  ]);
  const headers = { "content-type": "multipart/form-data; boundary=part" };
  const sent = await server.app.inject({ method: "POST", url: "/api/photos", headers, payload });
  const { hash } = sent.json();
  const id = randomUUID();
  await server.post("/api/measurements", { id, photo: hash, cornersPx, sizeMm, edgeBandMm: 5 });
  await vi.waitFor(async () => expect((await server.get(`/api/jobs/${id}`)).json.state).toBe("done"), 10_000);
  const measured: Measurement = (await server.get(`/api/measurements/${id}`)).json;
  const { id: trial, observe } = await server.startTrial();
  await observe({
    ...{ id: randomUUID(), by: "Ada", corrects: null },
    body: { kind: "put out", site: "fence", date: "2026-04-01", coupons: ["1", "2", "3", "4"] },
  });
  await observe({
    ...{ id: randomUUID(), by: "Ada", corrects: null },
    body: {
      ...{ kind: "look", coupon: "4", face: "front", when: { date: "2026-04-02" }, blind: true, how: "photo" },
      ...{ rustedPercent: measured.rustedPercent, edgePercent: measured.edgePercent, measurement: id },
    },
  });

  const pictures = [hash, measured.rectified, measured.overlay];
  const roads = [
    ...pictures.flatMap((one) => [`/api/photos/${one}`, `/api/photos/${one}?width=640`]),
    `/api/photos/${measured.mask}`,
    `/api/trials/${trial}/report`,
  ];
  for (const road of roads) {
    const { statusCode, rawPayload } = await server.app.inject({ url: road });
    expect(statusCode, road).toBe(200);
    expect(rawPayload.includes(place), road).toBe(false);
    if (!road.startsWith("/api/photos/")) continue;
    const { exif } = await sharp(rawPayload).metadata();
    expect(exif?.includes(Buffer.from([0x88, 0x25])) || exif?.includes(Buffer.from([0x25, 0x88])), road).toBeFalsy();
  }
  const report = (await server.app.inject({ url: roads.at(-1)! })).body;
  const inlined = [...report.matchAll(/data:image\/jpeg;base64,([A-Za-z0-9+/=]+)/g)];
  expect(inlined.length).toBeGreaterThan(0);
  for (const [, text] of inlined) expect((await sharp(Buffer.from(text!, "base64")).metadata()).exif).toBeUndefined();

  const kept = await readFile(server.store.photos.files.pathOf({ hash, mediaType: "image/jpeg" }));
  expect(createHash("sha256").update(kept).digest("hex"), "the shop's own original is untouched").toBe(hash);
  expect(kept.includes(place)).toBe(true);
});
