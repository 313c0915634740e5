import { randomUUID } from "node:crypto";
import { Readable } from "node:stream";
import sharp from "sharp";
import { expect, test, vi } from "vitest";
import { renderCoupon } from "../../../tests/rendered-coupon.ts";
import { testServer } from "../../../tests/test-server.ts";
import type { BrushStroke, MeasurementRequest } from "../../api/photo.ts";
import type { Measurer } from "../measure-pool.ts";
import { adaptToStrokes } from "../photos/adapt-model.ts";
import { measurePhoto } from "../photos/measure-photo.ts";

const inThisThread: Measurer = {
  run: (task, { progress }) => {
    if (task.kind !== "measure") throw new Error("this test corrects nothing");
    return measurePhoto({ ...task, progress });
  },
  adapt: adaptToStrokes,
  close: async () => {},
};

const sizeMm = { lengthMm: 60, widthMm: 40 };

/** A rendered coupon in a shop, to be measured. */
async function couponInShop() {
  const server = await testServer({ measurer: inThisThread });
  const of = { seed: 9, number: "4", finish: "phosphate dry", sizeMm, edgeBandMm: 5, look: 0, widthPx: 500 } as const;
  const coupon = renderCoupon({ ...of, rustedPercent: 8, edgePercent: 8 });
  const raw = { width: coupon.widthPx, height: coupon.heightPx, channels: 3 } as const;
  const bytes = await sharp(coupon.rgb, { raw }).png().toBuffer();
  const arrived = await server.store.photos.files.arrive(Readable.from([bytes]));
  const facts = { mediaType: "image/png", widthPx: 500, heightPx: 375, takenAt: null } as const;
  const photo = await server.store.photos.add(arrived, facts, "2026-04-01T08:00:00Z");
  const [a, b, c, d] = coupon.cornersPx.map(([x, y]): [number, number] => [x, y]);
  const measure = async (change: Partial<MeasurementRequest>) => {
    const request = { id: randomUUID(), photo: photo.hash, cornersPx: [a, b, c, d], sizeMm, edgeBandMm: 5, ...change };
    const answer = await server.post("/api/measurements", request);
    if (answer.status !== 202) return answer;
    await vi.waitFor(async () => expect((await server.get(`/api/jobs/${request.id}`)).json.state).toBe("done"), 10_000);
    return server.get(`/api/measurements/${request.id}`);
  };
  return { ...server, measure };
}

const dab = (paint: BrushStroke["paint"], x: number, y: number): BrushStroke => ({
  paint,
  widthMm: 3,
  pointsMm: [
    [x, y],
    [x + 4, y],
  ],
});
/** All over the face: nothing of this is rust. */
const denial = [8, 20, 32, 44].flatMap((x) => [8, 16, 24, 32].map((y) => dab("not rust", x, y)));

test("strokes are tried, kept version by version, chosen for a trial, and named in the ratings made with them", async () => {
  const { measure, post, get, app, startTrial } = await couponInShop();
  const { json: first } = await measure({});
  expect(first.rustPercentInterval.low).toBeLessThanOrEqual(first.rustedPercent);
  expect(first.rustPercentInterval.high).toBeGreaterThanOrEqual(first.rustedPercent);
  expect(first.gradeSpan.worst).toBeLessThanOrEqual(first.d610);

  const strokes = [...denial, dab("rust", 55, 37)];
  const tried = await post(`/api/measurements/${first.id}/model-preview`, { strokes });
  expect(tried.status).toBe(200);
  expect(tried.json.rustedPercent).toBeLessThan(first.rustedPercent);
  expect(tried.json.overlay).toMatch(/^data:image\/jpeg;base64,/);

  const toSave = {
    name: "my finish",
    finishAndLight: "dry phosphate, lamp",
    by: "Ada",
    measurement: first.id,
    strokes,
  };
  const { status, json: saved } = await post("/api/rust-models", toSave);
  expect(status).toBe(201);
  expect(saved).toMatchObject({ name: "my finish", version: 1, strokes: strokes.length, from: null });
  const from = { name: "my finish", version: 1 };
  expect((await post("/api/rust-models", { ...toSave, from })).json).toMatchObject({ version: 2, from });
  expect((await get("/api/rust-models")).json.map((one: { version: number }) => one.version)).toEqual([2, 1]);

  const { json: again } = await measure({ shopModel: from });
  expect(again.method).toMatch(/^rust by learned model, version \d+; adapted: my finish, version 1$/);
  // Tried on the coupon's JPEG, measured on the photograph; what is denied lies near the limit in both.
  expect(Math.abs(again.rustedPercent - tried.json.rustedPercent)).toBeLessThan(1);
  expect(again.rustedPercent).toBeLessThan(first.rustedPercent / 2);

  const trial = await startTrial();
  expect((await get(`/api/trials/${trial.id}/rust-model`)).json).toMatchObject({
    shopModel: null,
    method: expect.stringMatching(/^rust by learned model, version \d+$/),
  });
  const choice = { method: "PUT", url: `/api/trials/${trial.id}/rust-model` } as const;
  expect((await app.inject({ ...choice, payload: { shopModel: from } })).json()).toMatchObject({
    shopModel: from,
    method: again.method,
  });
  expect((await get(`/api/trials/${trial.id}/rust-model`)).json).toMatchObject({
    shopModel: from,
    method: again.method,
  });
  const users = (await get("/api/rust-models")).json.map((one: { trials: { id: string }[] }) => one.trials);
  expect(users).toEqual([[], [{ id: trial.id, name: "shed" }]]);
  const { json: second } = await measure({ shopModel: { name: "my finish", version: 2 } });
  expect(second.method).toMatch(/^rust by learned model, version \d+; adapted: my finish, version 2$/);
  const unknown = await app.inject({ ...choice, payload: { shopModel: { name: "yours", version: 1 } } });
  expect(unknown.statusCode).toBe(422);
});

test("refuses strokes of one kind, strokes beside the coupon, a model nobody saved, a first photograph without a card", async () => {
  const { measure, post } = await couponInShop();
  const { json: first } = await measure({});
  const tried = (strokes: BrushStroke[]) => post(`/api/measurements/${first.id}/model-preview`, { strokes });
  for (const strokes of [[], [dab("rust", 10, 10)], [dab("rust", 10, 10), dab("not rust", 900, 900)]])
    expect((await tried(strokes)).status).toBe(422);
  expect(await measure({ shopModel: { name: "yours", version: 3 } })).toMatchObject({ status: 422 });
  expect(await measure({ first: first.id })).toMatchObject({ status: 422 });
  expect(await measure({ first: randomUUID() })).toMatchObject({ status: 422 });
});
