import { describe, expect, test } from "vitest";
import { putOut, written } from "../../../tests/shed-trial.ts";
import { testServer } from "../../../tests/test-server.ts";

const now = () => new Date("2026-05-10T12:00:00Z");
/** Hourly readings before a moment, the last so many of them wet. */
const readingsBefore = (until: string, hours: number, wet: number) =>
  Array.from({ length: hours }, (_, at) => ({
    at: new Date(Date.parse(until) - (hours - at) * 3_600_000).toISOString(),
    tempC: 10,
    rhPercent: at >= hours - wet ? 90 : 50,
  }));

describe("sites", () => {
  test("none in an empty shop", async () => {
    const { get } = await testServer({ now });
    expect(await get("/api/sites")).toEqual({ status: 200, json: [] });
  });

  test("coupons hang, and there is no log", async () => {
    const { get, startTrial } = await testServer({ now });
    const { id, observe } = await startTrial();
    await observe(written(putOut(["1", "2"], "2026-05-03")));
    await observe(written({ kind: "taken down", coupon: "2", when: { date: "2026-05-04" }, reason: "lost", note: "" }));
    expect((await get("/api/sites")).json).toEqual([
      {
        site: "shed roof",
        hanging: [{ trial: { id, name: "shed" }, coupons: 1, since: "2026-05-03" }],
        lastReadingAt: null,
        lastDay: null,
        exposure: null,
      },
    ]);
  });

  test("wet hours of the last day and since the coupons went out; what came later than now is not counted", async () => {
    const { get, post, startTrial } = await testServer({ now });
    const { observe } = await startTrial();
    await observe(written(putOut(["1"], "2026-05-08")));
    await post("/api/sites/shed%20roof/readings", readingsBefore("2026-05-10T14:00:00Z", 30, 10));
    const [site] = (await get("/api/sites")).json;
    expect(site.lastDay).toMatchObject({
      endsNow: true,
      endsAt: "2026-05-10T12:00:00.000Z",
      wetHours: 8,
      unknownHours: 0,
    });
    expect(site.lastDay.hours).toHaveLength(24);
    expect(site.exposure).toMatchObject({ since: "2026-05-08", wetHours: 8 });
    expect(site.exposure.hours - site.exposure.unknownHours).toBe(28);
  });

  test("a log that ended days ago shows its own last day", async () => {
    const { get, post } = await testServer({ now });
    await post("/api/sites/drawer/readings", readingsBefore("2026-05-05T00:00:00Z", 48, 6));
    expect((await get("/api/sites")).json).toMatchObject([
      {
        site: "drawer",
        hanging: [],
        exposure: null,
        lastDay: { endsNow: false, endsAt: "2026-05-05T00:00:00.000Z", wetHours: 6 },
      },
    ]);
  });

  test("a log of last year, where nothing hangs, is no line of today", async () => {
    const { get, post } = await testServer({ now });
    await post("/api/sites/attic/readings", readingsBefore("2025-05-05T00:00:00Z", 48, 6));
    expect((await get("/api/sites")).json).toEqual([]);
  });
});

describe("the calendar of looks over HTTP", () => {
  test("asks for a date while nothing is out, and then gives the file", async () => {
    const { app, startTrial } = await testServer({ now });
    const { id } = await startTrial();
    const without = await app.inject({ url: `/api/trials/${id}/looks.ics` });
    expect([without.statusCode, JSON.parse(without.body).errors[0].pointer]).toEqual([422, "/from"]);
    const { statusCode, headers, body } = await app.inject({ url: `/api/trials/${id}/looks.ics?from=2026-05-30` });
    expect([statusCode, headers["content-type"]]).toEqual([200, "text/calendar; charset=utf-8"]);
    expect(body).toContain("DTSTART;VALUE=DATE:20260531\r\n");
    expect((await app.inject({ url: `/api/trials/${id}/looks.ics?from=soon` })).statusCode).toBe(422);
  });
});
