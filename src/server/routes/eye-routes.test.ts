import { randomUUID } from "node:crypto";
import { expect, test } from "vitest";
import { testServer } from "../../../tests/test-server.ts";
import { platePercent, plateSeries, platesOfTest } from "../../core/rating/rust-plate.ts";

const taken = () => ({
  id: randomUUID(),
  by: "Ines",
  way: "percent",
  seed: 8,
  read: Array<number>(platesOfTest).fill(2),
});

test("a test of the eye is kept with the true areas of its plates; sent twice it is one", async () => {
  const { post, get } = await testServer();
  const one = taken();
  const { status, json } = await post("/api/eye-tests", one);
  expect(status).toBe(201);
  expect(json).toMatchObject({ ...one, truePercents: plateSeries(8).map(platePercent) });
  await post("/api/eye-tests", one);
  await post("/api/eye-tests", { ...taken(), by: "Ada" });
  const { json: kept } = await get("/api/eye-tests");
  expect(kept.map(({ by }: { by: string }) => by)).toEqual(["Ines", "Ada"]);
});

test.each([
  ["19 plates", { read: Array<number>(19).fill(2) }],
  ["a percent beyond 100", { read: Array<number>(platesOfTest).fill(101) }],
  ["a grade that does not exist", { way: "grade", read: Array<number>(platesOfTest).fill(12) }],
  ["nobody", { by: "" }],
])("refuses %s", async (_what, wrong) => {
  const { post } = await testServer();
  expect((await post("/api/eye-tests", { ...taken(), ...wrong })).status).toBe(422);
});
