import { randomUUID } from "node:crypto";
import { describe, expect, test } from "vitest";
import { testServer } from "../../../tests/test-server.ts";
import { noReadingWishes } from "../../core/trial/plain-table.ts";
import { plainAsk } from "../../core/trial/table-question.ts";

const table = [
  "coupon;treatment;date;rusted_percent",
  "1;control;01.04.2026;0",
  "1;control;04.05.2026;2,5",
  "2;wax;01.04.2026;0",
  "2;wax;04.05.2026;0",
].join("\r\n");

const notebook = (more: object) => ({
  id: randomUUID(),
  name: "shed",
  by: "Ada",
  text: table,
  reading: { ...noReadingWishes, dates: "dmy" },
  ask: plainAsk,
  question: "Does wax keep longer?",
  couponSize: { lengthMm: 100, widthMm: 50, thicknessMm: 2 },
  edgeBandMm: 5,
  startedOn: null,
  again: false,
  ...more,
});

describe("a notebook over HTTP", () => {
  test("becomes a trial, once, however often it is sent", async () => {
    const { post, get } = await testServer();
    const one = notebook({});
    const made = await post("/api/import", one);
    expect(made).toMatchObject({ status: 201, json: { id: one.id, coupons: 2 } });
    expect(await post("/api/import", one)).toEqual(made);
    const { json: trial } = await get(`/api/trials/${one.id}`);
    const looks = trial.observations.filter((entry: { body: { kind: string } }) => entry.body.kind === "look");
    expect(looks.map((entry: { body: { rustedPercent: number } }) => entry.body.rustedPercent)).toEqual([0, 2.5, 0, 0]);
    expect(trial.observations).toHaveLength(made.json.observations + 1);
    expect((await post("/api/import", { ...one, text: `${table}\r\n1;control;05.05.2026;9` })).status).toBe(409);
  });

  test("the same table a second time is no second trial, unless that is wanted", async () => {
    const { post, get } = await testServer();
    expect((await post("/api/import", notebook({}))).status).toBe(201);
    const twin = notebook({ name: "shed once more" });
    const refused = await post("/api/import", twin);
    expect(refused).toMatchObject({ status: 422, json: { errors: [{ pointer: "/again" }] } });
    expect(refused.json.detail).toContain("as the trial “shed”");
    expect((await get("/api/trials")).json).toHaveLength(1);
    expect((await post("/api/import", { ...twin, again: true })).status).toBe(201);
    expect((await post("/api/import", notebook({ text: `${table}\r\n2;wax;06.05.2026;1` }))).status).toBe(201);
  });

  const values = "coupon,treatment,value\n1,control,3.5\n2,wax,4.25\n";
  test.each([
    [
      "times",
      "coupon,treatment,left_days,right_days\n1,control,7,14\n2,wax,14,\n",
      {},
      { kind: "first rust", leftDays: 14, rightDays: null },
    ],
    [
      "strokes",
      "coupon,treatment,left_strokes,right_strokes\n1,control,7,14\n2,wax,14,\n",
      {},
      { kind: "wear test", place: null, when: null, leftStrokes: 14, rightStrokes: null },
    ],
    [
      "ratings",
      "coupon,treatment,day,rating\n1,control,7,9\n2,wax,7,10\n",
      { scale: "d610" },
      { kind: "look", rating: 10, scale: "d610" },
    ],
    [
      "values",
      values,
      { kind: "continuous", better: "higher", response: "coating mass" },
      { kind: "value", name: "coating mass", value: 4.25, when: null },
    ],
  ])(
    "a table of %s becomes a trial, its readings without a date that nobody wrote",
    async (_what, text, wishes, kept) => {
      const { post, get } = await testServer();
      const one = notebook({ text, reading: { ...noReadingWishes, ...wishes } });
      expect(await post("/api/import", one)).toMatchObject({ status: 201, json: { coupons: 2, observations: 2 } });
      const { json: trial } = await get(`/api/trials/${one.id}`);
      expect(trial.observations.at(-1).body).toMatchObject({ coupon: "2", ...kept });
      // What was written wrongly is corrected like anything else.
      const { id, body } = trial.observations.at(-1);
      const corrected = {
        id: randomUUID(),
        by: "Ada",
        corrects: { id, why: "misread" },
        body: { ...body, coupon: "1" },
      };
      const answer = await post(`/api/trials/${one.id}/observations`, corrected);
      if (body.kind === "look") expect(answer.status).toBe(201);
      else expect(answer.json.errors[0].detail).toMatch(/coupon is "1"; expected a coupon without/);
    },
  );

  test("a class that the scale does not have is refused by name", async () => {
    const { post } = await testServer();
    const one = notebook({
      text: "coupon,treatment,day,rating\n1,control,7,3\n2,wax,7,0\n",
      reading: { ...noReadingWishes, scale: "iso4628" },
    });
    await post("/api/import", one);
    const look = { kind: "look", coupon: "1", face: "front", when: { day: 9 }, edgePercent: null, how: "eye" };
    const body = { ...look, blind: true, measurement: null, scale: "iso4628", rating: 6 };
    const answer = await post(`/api/trials/${one.id}/observations`, {
      id: randomUUID(),
      by: "Ada",
      corrects: null,
      body,
    });
    expect(answer.status).toBe(422);
    expect(answer.json.errors[0]).toMatchObject({ detail: expect.stringMatching(/rating is 6; expected a class/) });
  });

  test.each([
    ["dates that can be read two ways", { reading: noReadingWishes }, "/reading/dates", /which\?.*dmy, mdy/],
    ["a percentage of 120", { text: table.replace("2,5", "120") }, "/text", /^row 3, rusted_percent: 120; expected/],
    [
      "no table at all",
      { text: "Dear diary" },
      "/text",
      /^row 1: Dear diary; expected a header row with the columns coupon and/,
    ],
    ["a control that is not there", { ask: { ...plainAsk, control: "tar" } }, "/ask/control", /"tar"; expected/],
  ])("with %s is refused where it stands, and nothing is kept", async (_what, more, pointer, words) => {
    const { post, get } = await testServer();
    const answer = await post("/api/import", notebook(more));
    expect(answer.status).toBe(422);
    const refused = answer.json.errors.find((one: { pointer: string }) => one.pointer === pointer);
    expect(refused?.detail).toMatch(words);
    expect((await get("/api/trials")).json).toEqual([]);
  });
});
