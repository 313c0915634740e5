import { randomUUID } from "node:crypto";
import { expect, test } from "vitest";
import { sharedShop } from "../../../tests/network-side.ts";
import { shedDraft } from "../../../tests/test-server.ts";
import type { DueToday } from "../../api/shop.ts";

test("what two phones wrote down differently is kept twice and asked about, until somebody chooses", async () => {
  const { here, pair } = await sharedShop();
  const id = randomUUID();
  await here("/api/trials", { method: "POST", body: { ...shedDraft, id } });
  const path = `/api/trials/${id}/observations`;
  const [ada, ines] = [await pair("helper", "Ada's phone"), await pair("helper", "Ines's phone")];
  const strokes = { kind: "wear test", coupon: "1", place: "edge", leftStrokes: 10, blind: true, note: "" } as const;
  const send = async (who: typeof ada, by: string, rightStrokes: number, agoMs: number) => {
    const clock = { deviceClock: new Date(Date.now() - agoMs).toISOString(), skewMs: 0 };
    const body = { ...strokes, when: { date: "2026-05-03" }, rightStrokes };
    return who.as(path, { method: "POST", body: { id: randomUUID(), by, corrects: null, clock, body } });
  };
  expect((await send(ines, "Ines", 40, 30_000)).status).toBe(201);
  expect((await send(ada, "Ada", 20, 60_000)).status).toBe(201);
  const asked = async (): Promise<DueToday> => JSON.parse((await here("/api/today")).text);
  const [differing] = (await asked()).differing ?? [];
  expect(differing).toMatchObject({
    what: "wear test on the edge of coupon 1",
    when: { date: "2026-05-03" },
    counts: { by: "Ada", reading: "10 to 20 strokes" },
    differs: { by: "Ines", reading: "10 to 40 strokes" },
  });
  const choice = { id: differing!.counts.id, why: "Ines counted aloud" };
  const body = { id: randomUUID(), by: "Ada", corrects: choice, body: { kind: "withdrawal" } };
  expect((await here(path, { method: "POST", body })).status).toBe(201);
  expect((await asked()).differing).toEqual([]);
  const { observations } = JSON.parse((await here(`/api/trials/${id}`)).text);
  expect(observations.filter((one: { body: { kind: string } }) => one.body.kind === "wear test")).toHaveLength(2);
});
