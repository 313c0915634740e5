import { expect, test } from "vitest";
import { look, putOut, written } from "../../tests/shed-trial.ts";
import { testServer } from "../../tests/test-server.ts";
import { shopClockHeader } from "../api/shop-clock.ts";

const now = new Date("2026-05-03T12:00:00.000Z");

test.each([
  // device clock                skew ms     by the shop's clock          why
  ["2026-05-03T09:00:00.000Z", 0, "2026-05-03T09:00:00.000Z", "a right clock"],
  ["2026-05-03T08:50:00.000Z", 600_000, "2026-05-03T09:00:00.000Z", "ten minutes behind"],
  ["2031-01-01T00:00:00.000Z", -147_139_200_000, "2026-05-04T00:00:00.000Z", "a wild clock and a wrong skew"],
])("%s, off by %d ms, was written at %s (%s)", async (deviceClock, skewMs, at) => {
  const server = await testServer({ now: () => now });
  const { id, observe } = await server.startTrial();
  await observe(written(putOut(["1"], "2026-05-01")));
  const { json } = await observe({ ...written(look("1", "2026-05-02")), clock: { deviceClock, skewMs } });
  const capped = new Date(Math.min(Date.parse(at), now.getTime())).toISOString();
  expect(json).toMatchObject({ recordedAt: now.toISOString(), written: { at: capped, deviceClock, skewMs } });
  const { observations } = (await server.get(`/api/trials/${id}`)).json;
  expect(observations.at(-1)).toEqual(json);
});

test("sent again with a better known clock, it is the same observation", async () => {
  const server = await testServer({ now: () => now });
  const { observe } = await server.startTrial();
  const sent = written(putOut(["1"], "2026-05-01"));
  const deviceClock = "2026-05-03T09:00:00.000Z";
  const first = await observe({ ...sent, clock: { deviceClock, skewMs: 0 } });
  expect(await observe({ ...sent, clock: { deviceClock, skewMs: 70_000 } })).toEqual(first);
});

test("every fresh answer tells the shop's clock", async () => {
  const { app } = await testServer();
  const told = Number((await app.inject({ url: "/api/today" })).headers[shopClockHeader]);
  expect(Math.abs(told - Date.now())).toBeLessThan(5000);
});
