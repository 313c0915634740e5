import { expect, test } from "vitest";
import { testServer } from "../../../tests/test-server.ts";

const corners = [
  [10, 10],
  [90, 10],
  [90, 90],
  [10, 90],
];
const picture = { photo: "a".repeat(64), cornersPx: corners };
const request = { pattern: { form: "cross-cut", cuts: 6, spacingMm: 2 }, before: picture, after: picture };

test("a photograph that is not in this shop is named, before or after", async () => {
  const { post } = await testServer();
  const answer = await post("/api/tape-readings", request);
  expect(answer).toMatchObject({ status: 422, json: { errors: [{ pointer: "/before/photo" }] } });
});

test.each([
  ["three corners", { before: { ...picture, cornersPx: corners.slice(1) } }, "/before/cornersPx"],
  ["a spacing of nothing", { pattern: { form: "cross-cut", cuts: 6, spacingMm: 0 } }, "/pattern/spacingMm"],
])("%s is refused where it stands", async (_, part, pointer) => {
  const { post } = await testServer();
  const { status, json } = await post("/api/tape-readings", { ...request, ...part });
  expect(status).toBe(422);
  expect(json.errors[0].pointer).toContain(pointer);
});
