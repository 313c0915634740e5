import { randomUUID } from "node:crypto";
import { describe, expect, test } from "vitest";
import { look, putOut, written } from "../../tests/shed-trial.ts";
import { shedDraft, testServer } from "../../tests/test-server.ts";

describe("a trial over HTTP", () => {
  test("is drawn by its seed and given back whole", async () => {
    const { post, get } = await testServer();
    const id = randomUUID();
    const made = await post("/api/trials", { ...shedDraft, id });
    expect(made).toMatchObject({ status: 201, json: { id, name: "shed", measurements: [] } });
    const [{ body }] = made.json.observations;
    expect(body.plan.allocation).toEqual({ how: "drawn", seed: 7 });
    expect(body.plan.places.map((place: { coupon: string }) => place.coupon)).toEqual(["1", "2", "3", "4"]);
    expect(await get(`/api/trials/${id}`)).toEqual({ status: 200, json: made.json });
    expect((await get("/api/trials")).json).toMatchObject([{ id, name: "shed", coupons: 4, unblinded: false }]);
    // Sent again, because the first answer was lost on the way:
    expect(await post("/api/trials", { ...shedDraft, id })).toEqual(made);
    expect((await post("/api/trials", { ...shedDraft, id, name: "roof" })).status).toBe(409);
  });

  test.each([
    [
      "a treatment twice",
      { treatments: [0, 0].map((at) => shedDraft.draft.treatments[at]) },
      "/draft/treatments/1/name",
    ],
    ["no control", { treatments: [shedDraft.draft.treatments[1]] }, "/draft/questions/0/family"],
    ["more blocks than coupons", { blocks: 9 }, "/draft/blocks"],
    ["an edge band that leaves no face", { edgeBandMm: 25 }, "/draft/edgeBandMm"],
    ["an edge band below 0", { edgeBandMm: -1 }, "/draft/edgeBandMm"],
    [
      "a coupon count of 2.5",
      { treatments: [{ ...shedDraft.draft.treatments[0], coupons: 2.5 }] },
      "/draft/treatments/0/coupons",
    ],
  ])("with %s is refused, and the field named", async (_what, wrong, pointer) => {
    const { post, get } = await testServer();
    const answer = await post("/api/trials", {
      ...shedDraft,
      id: randomUUID(),
      draft: { ...shedDraft.draft, ...wrong },
    });
    expect(answer).toMatchObject({ status: 422, json: { errors: [{ pointer }] } });
    expect((await get("/api/trials")).json).toEqual([]);
  });

  test("an observation is taken once, however often it is sent", async () => {
    const { startTrial, get } = await testServer();
    const { id, observe } = await startTrial();
    const one = written(putOut(["1", "2"], "2026-04-01"));
    const first = await observe(one);
    expect(first).toMatchObject({ status: 201, json: one });
    expect(await observe(one)).toEqual(first);
    expect((await get(`/api/trials/${id}`)).json.observations).toHaveLength(2);
    expect((await observe({ ...one, by: "Ben" })).status).toBe(409);
  });

  test.each([
    ["a rusted area of 120 %", look("1", "2026-04-02", 120), "/body/rustedPercent", /is 120; expected at most 100/],
    [
      "a date before it was put out",
      look("1", "2026-03-31"),
      "/body/when/date",
      /"2026-03-31"; expected a date from 2026-04-01 on/,
    ],
    ["a date that is none", look("1", "31.03.2026"), "/body/when/date", /"31.03.2026"; expected a date as 2026-05-31/],
    [
      "a coupon that is not in the trial",
      look("99", "2026-04-02"),
      "/body/coupon",
      /"99"; expected the number of a coupon/,
    ],
    [
      "a measurement that is not there",
      { ...look("1", "2026-04-02"), measurement: randomUUID() },
      "/body/measurement",
      /id of a measurement/,
    ],
    [
      "a kind that nobody knows",
      { ...look("1", "2026-04-02"), kind: "glance" },
      "/body/kind",
      /"glance"; expected one of .*"look"/,
    ],
    [
      "a field too many",
      { ...look("1", "2026-04-02"), rustPercent: 3 },
      "/body/rustPercent",
      /expected no field of that name/,
    ],
  ])("%s: 422, with the value and what was expected", async (_what, body, pointer, words) => {
    const { startTrial, get } = await testServer();
    const { id, observe } = await startTrial();
    await observe(written(putOut(["1", "2"], "2026-04-01")));
    const answer = await observe(written(body as ReturnType<typeof look>));
    expect(answer).toMatchObject({ status: 422, json: { type: "about:blank", errors: [{ pointer }] } });
    expect(answer.json.errors[0].detail).toMatch(words);
    expect((await get(`/api/trials/${id}`)).json.observations).toHaveLength(2);
  });

  test("a corrected look keeps its history, whichever wording is asked for", async () => {
    const { startTrial, get } = await testServer();
    const { id, observe } = await startTrial();
    await observe(written(putOut(["1"], "2026-04-01")));
    const first = written(look("1", "2026-04-02", 5));
    const second = written(look("1", "2026-04-02", 0.5), { corrects: { id: first.id, why: "wrong line" } });
    const third = written({ kind: "withdrawal" }, { corrects: { id: second.id, why: "it was coupon 2" } });
    for (const one of [first, second, third]) expect((await observe(one)).status).toBe(201);
    for (const one of [first, second, third]) {
      const history = await get(`/api/trials/${id}/observations/${one.id}/history`);
      expect(history.json.map((entry: { id: string }) => entry.id)).toEqual([first.id, second.id, third.id]);
    }
    const again = await observe(written(look("1", "2026-04-02", 1), { corrects: { id: first.id, why: "x" } }));
    expect(again).toMatchObject({ status: 422, json: { errors: [{ pointer: "/corrects/id" }] } });
  });

  test("today is what is due on this day here", async () => {
    const { startTrial, get } = await testServer({ now: () => new Date(2026, 3, 8, 6) });
    const { id, observe } = await startTrial();
    await observe(written(putOut(["1", "2"], "2026-04-01")));
    await observe(written(look("1", "2026-04-02")));
    expect((await get("/api/today")).json).toMatchObject({
      date: "2026-04-08",
      overdue: [],
      today: [{ trial: { id, name: "shed" }, number: 2, of: 2, coupons: ["1", "2"] }],
    });
  });
});

describe("errors are problem details", () => {
  test.each([
    ["GET", `/api/trials/${randomUUID()}`, undefined, 404],
    ["GET", "/api/trials/7", undefined, 422],
    ["GET", "/api/nothing", undefined, 404],
    ["GET", `/api/photos/${"0".repeat(64)}`, undefined, 404],
    ["GET", `/api/jobs/${randomUUID()}`, undefined, 404],
    ["POST", `/api/trials/${randomUUID()}/observations`, "{", 400],
    ["POST", "/api/trials", JSON.stringify({ filler: "x".repeat(2_100_000) }), 413],
    ["POST", "/api/trials", "", 400],
  ] as const)("%s %s: %#", async (method, url, payload, status) => {
    const { app } = await testServer();
    const headers = payload === undefined ? {} : { "content-type": "application/json" };
    const answer = await app.inject({ method, url, headers, ...(payload === undefined ? {} : { payload }) });
    expect(answer.headers["content-type"]).toMatch(/^application\/problem\+json/);
    expect(answer.json()).toMatchObject({ type: "about:blank", status });
    expect(answer.statusCode).toBe(status);
  });

  test("what is too large is told its limit", async () => {
    const { post } = await testServer();
    const { json } = await post("/api/trials", { filler: "x".repeat(2_100_000) });
    expect(json.detail).toBe("what was sent is too large; expected at most 2 MB");
  });
});

describe("the shop", () => {
  test("units are chosen once and kept", async () => {
    const { app, get } = await testServer();
    expect((await get("/api/shop")).json).toEqual({
      preferences: null,
      cardRulerMm: null,
      balanceMg: null,
      invented: false,
    });
    const chosen = { temp: "°F", length: "in", mass: "oz" };
    await app.inject({ method: "PUT", url: "/api/shop/preferences", payload: chosen });
    expect((await get("/api/shop")).json.preferences).toEqual(chosen);
  });

  test("what the card's ruler measures is kept once; another page size is refused", async () => {
    const { app, get } = await testServer();
    const put = (cardRulerMm: number) =>
      app.inject({ method: "PUT", url: "/api/shop/card-ruler", payload: { cardRulerMm } });
    expect((await put(98.6)).statusCode).toBe(200);
    expect((await put(71)).statusCode).toBe(422);
    expect((await get("/api/shop")).json.cardRulerMm).toBe(98.6);
  });

  test("readings of a site come back by time; repeats are counted, not kept", async () => {
    const { post, get } = await testServer();
    const readings = [9, 8].map((hour) => ({ at: `2026-04-01T0${hour}:00:00Z`, tempC: hour, rhPercent: 90 }));
    const url = `/api/sites/${encodeURIComponent("shed roof, north/west")}/readings`;
    expect(await post(url, readings)).toEqual({ status: 201, json: { added: 2, repeated: 0 } });
    expect((await post(url, readings)).json).toEqual({ added: 0, repeated: 2 });
    const day = await get(`${url}?from=2026-04-01T00:00:00Z&to=2026-04-02T00:00:00Z`);
    expect(day.json.map((one: { tempC: number }) => one.tempC)).toEqual([8, 9]);
    expect(await post(url, [{ at: "2026-04-01T08:00:00Z", tempC: 8, rhPercent: 140 }])).toMatchObject({
      status: 422,
      json: { errors: [{ pointer: "/0/rhPercent", detail: "[0].rhPercent is 140; expected at most 102" }] },
    });
  });

  test("the OpenAPI document holds every schema that it refers to", async () => {
    const { get } = await testServer();
    const { json: document } = await get("/openapi.json");
    expect(Object.keys(document.paths)).toEqual(
      expect.arrayContaining(["/api/trials/{id}/observations", "/api/photos", "/api/sites/{site}/readings"]),
    );
    const names = [...JSON.stringify(document).matchAll(/#\/components\/schemas\/([^"]+)/g)].map((match) => match[1]!);
    for (const name of names) expect(document.components.schemas).toHaveProperty(name);
  });
});
