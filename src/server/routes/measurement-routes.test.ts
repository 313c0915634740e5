import { randomUUID } from "node:crypto";
import { readdir } from "node:fs/promises";
import { join } from "node:path";
import { Readable } from "node:stream";
import sharp from "sharp";
import { describe, expect, test, vi } from "vitest";
import { testServer } from "../../../tests/test-server.ts";
import type { MeasurementRequest } from "../../api/photo.ts";
import type { Measurer } from "../measure-pool.ts";
import { adaptToStrokes } from "../photos/adapt-model.ts";
import { correctMeasurement, measurePhoto } from "../photos/measure-photo.ts";

/** The real measuring, in this thread: the threads of a server run built files only. */
const inThisThread: Measurer = {
  run: (task, { progress }) =>
    task.kind === "measure" ? measurePhoto({ ...task, progress }) : correctMeasurement({ ...task, progress }),
  adapt: adaptToStrokes,
  close: async () => {},
};
/** Measures until it is told to stop. */
const endless: Measurer = {
  run: (_task, { signal, progress }) =>
    new Promise((_resolve, reject) => {
      progress(0.5);
      signal.addEventListener("abort", () => reject(new Error("stopped")));
    }),
  adapt: () => Promise.resolve(null),
  close: async () => {},
};

/** A steel-grey coupon of 100 x 60 mm with a rust-brown square of 20 x 20 mm on its face, 5 px to the mm. */
async function serverWithPhoto(measurer: Measurer) {
  const server = await testServer({ measurer });
  const rust = { create: { width: 100, height: 100, channels: 3, background: { r: 140, g: 70, b: 30 } } } as const;
  const bytes = await sharp({
    create: { width: 600, height: 400, channels: 3, background: { r: 130, g: 131, b: 133 } },
  })
    .composite([{ input: rust, left: 250, top: 150 }])
    .png()
    .toBuffer();
  const arrived = await server.store.photos.files.arrive(Readable.from([bytes]));
  const facts = { mediaType: "image/png", widthPx: 600, heightPx: 400, takenAt: null } as const;
  const photo = await server.store.photos.add(arrived, facts, "2026-04-01T08:00:00Z");
  const request: MeasurementRequest = {
    id: randomUUID(),
    photo: photo.hash,
    cornersPx: [
      [50, 50],
      [550, 50],
      [550, 350],
      [50, 350],
    ],
    sizeMm: { lengthMm: 100, widthMm: 60 },
    edgeBandMm: 5,
  };
  const ended = (id: string, state: string) =>
    vi.waitFor(async () => expect((await server.get(`/api/jobs/${id}`)).json.state).toBe(state), { timeout: 10_000 });
  return { ...server, request, ended };
}

describe("a measurement", () => {
  test("is asked for, watched, and kept with its pictures; a brush makes another beside it", async () => {
    const { post, get, app, ended, ...served } = await serverWithPhoto(inThisThread);
    const request = { ...served.request, neutralPx: [20, 20] };
    expect(await post("/api/measurements", request)).toMatchObject({ status: 202, json: { id: request.id } });
    await ended(request.id, "done");
    const { json: first } = await get(`/api/measurements/${request.id}`);
    // 400 mm² of a face of 90 x 50 mm, give or take one pixel (0.2 mm) all along the square's rim of 80 mm.
    expect(first.assessedAreaMm2).toBeCloseTo(4500, 0);
    expect(Math.abs(first.rustedPercent - (100 * 400) / 4500)).toBeLessThan((100 * 80 * 0.2) / 4500);
    expect(first).toMatchObject({ request, byHand: null, light: { by: "white place" } });
    for (const [hash, type] of [
      [first.rectified, "image/jpeg"],
      [first.mask, "image/png"],
      [first.overlay, "image/jpeg"],
    ])
      expect((await app.inject({ url: `/api/photos/${hash}` })).headers["content-type"]).toBe(type);

    const wipe = {
      paint: "not rust",
      widthMm: 30,
      pointsMm: [
        [30, 30],
        [70, 30],
      ],
    };
    const correction = { id: randomUUID(), by: "Ada", why: "that is clay", strokes: [wipe] };
    expect((await post(`/api/measurements/${request.id}/corrections`, correction)).status).toBe(202);
    await ended(correction.id, "done");
    const { json: second } = await get(`/api/measurements/${correction.id}`);
    expect(second.light).toEqual(first.light);
    expect(second.rustedPercent).toBeLessThan(0.1);
    expect(second).toMatchObject({
      request: { ...request, id: correction.id },
      rectified: first.rectified,
      byHand: { by: "Ada", why: "that is clay", from: request.id },
    });
    expect((await get(`/api/measurements/${request.id}`)).json).toEqual(first);
  });

  test("asked for twice is made once; its id is good for nothing else", async () => {
    const run = vi.fn(inThisThread.run);
    const { post, request, ended } = await serverWithPhoto({ ...inThisThread, run });
    await post("/api/measurements", request);
    await post("/api/measurements", request);
    await ended(request.id, "done");
    expect((await post("/api/measurements", request)).json).toMatchObject({ id: request.id, state: "done" });
    expect(run).toHaveBeenCalledOnce();
    expect((await post("/api/measurements", { ...request, edgeBandMm: 6 })).status).toBe(409);
  });

  test("cancelled, leaves nothing; asked for again, runs again", async () => {
    const { post, get, app, store, request, ended } = await serverWithPhoto(endless);
    await post("/api/measurements", request);
    expect((await get(`/api/jobs/${request.id}`)).json).toMatchObject({ state: "working" });
    const answer = await app.inject({ method: "DELETE", url: `/api/jobs/${request.id}` });
    expect(answer.json()).toMatchObject({ state: "cancelled", failure: null });
    expect((await get(`/api/measurements/${request.id}`)).status).toBe(404);
    await vi.waitFor(async () => expect(await readdir(join(store.dir, "unfinished"))).toEqual([]));
    await post("/api/measurements", request);
    await ended(request.id, "working");
  });

  test("that cannot be made says why", async () => {
    const { post, get, request, ended } = await serverWithPhoto(inThisThread);
    const wrong = { ...request, edgeBandMm: 40 };
    await post("/api/measurements", wrong);
    await ended(wrong.id, "failed");
    expect((await get(`/api/jobs/${wrong.id}`)).json.failure).toMatch(/edgeBandMm is 40; expected/);
  });

  test("a photograph without a card is kept and not rated: the job says why, and corners by hand still rate it", async () => {
    const { post, get, request, ended } = await serverWithPhoto(inThisThread);
    const byCard = { ...request, id: randomUUID(), cornersPx: null };
    await post("/api/measurements", byCard);
    await ended(byCard.id, "failed");
    expect((await get(`/api/jobs/${byCard.id}`)).json.refusal).toMatchObject({ why: "no card", cornersPx: null });
    expect((await get(`/api/measurements/${byCard.id}`)).status).toBe(404);
    await post("/api/measurements", request);
    await ended(request.id, "done");
  });

  test("a wet coupon is photographed, not rated", async () => {
    const { post, get, request, ended } = await serverWithPhoto(inThisThread);
    await post("/api/measurements", { ...request, surface: "wet" });
    await ended(request.id, "failed");
    const { refusal } = (await get(`/api/jobs/${request.id}`)).json;
    expect(refusal).toMatchObject({ why: "surface", sentence: expect.stringContaining("kept and not rated") });
  });

  test("of a photograph that is not here is refused", async () => {
    const { post, request } = await serverWithPhoto(inThisThread);
    const answer = await post("/api/measurements", { ...request, photo: "0".repeat(64) });
    expect(answer).toMatchObject({ status: 422, json: { errors: [{ pointer: "/photo" }] } });
  });
});
