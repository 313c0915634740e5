import { expect, test } from "vitest";
import type { WaitingItem } from "./waiting-item.ts";
import { withWaiting } from "./with-waiting.ts";

const trial = { id: "t", name: "shed", createdAt: "2026-03-01T08:00:00Z", observations: [], measurements: [] };
const waits = (id: string, more: Partial<WaitingItem> = {}): WaitingItem => ({
  kind: "observation",
  id,
  writtenAt: "2026-03-01T10:00:00Z",
  refused: null,
  trial: "t",
  observation: { id, by: "Ada", corrects: null, body: { kind: "unblinding" } },
  ...(more.refused ? { refused: more.refused } : {}),
});

test("what waits belongs to its trial's record, with the time of writing by the shop's clock", () => {
  const { observations } = withWaiting(trial, [waits("a")]);
  expect(observations).toEqual([
    { id: "a", by: "Ada", corrects: null, body: { kind: "unblinding" }, recordedAt: "2026-03-01T10:00:00.000Z" },
  ]);
});
test("of a device whose clock is five minutes behind it says the shop's time", () => {
  const { observations } = withWaiting(trial, [{ ...waits("a"), skewMs: 300_000 }]);
  expect(observations.map(({ recordedAt }) => recordedAt)).toEqual(["2026-03-01T10:05:00.000Z"]);
});
test("stored meanwhile, it counts once", () => {
  const once = withWaiting(trial, [waits("a")]);
  expect(withWaiting(once, [waits("a")])).toEqual(once);
});
test("another trial's, and what was refused, stay out", () => {
  expect(withWaiting({ ...trial, id: "u" }, [waits("a")]).observations).toEqual([]);
  const refused = { type: "about:blank", title: "no", status: 422 };
  expect(withWaiting(trial, [waits("a", { refused })]).observations).toEqual([]);
});
