import { randomUUID } from "node:crypto";
import { join } from "node:path";
import { describe, expect, onTestFinished, test } from "vitest";
import { look, putOut, shedPlan, written } from "../../tests/shed-trial.ts";
import { temporaryFolder } from "../../tests/temporary-folder.ts";
import type { NewObservation } from "../api/observation.ts";
import { Conflict } from "./conflict.ts";
import { openShop } from "./open-shop.ts";

const at = "2026-04-02T08:00:00.000Z";
const takeAll = () => {};

async function shopWithTrial() {
  const dir = join(await temporaryFolder(), "shop");
  const store = await openShop(dir);
  onTestFinished(() => store.close());
  const id = randomUUID();
  const plan = { ...written({ kind: "plan", plan: shedPlan }), recordedAt: at };
  await store.trials.start({ id, name: "shed", createdAt: at }, [plan]);
  const record = (one: NewObservation, recordedAt = at, check: () => void = takeAll) =>
    store.trials.record(id, { ...one, recordedAt }, check);
  return { store, id, plan, record };
}

describe("observations only add up", () => {
  test("they come back as they were sent, in the order they came in", async () => {
    const { store, id, plan, record } = await shopWithTrial();
    const sent = [
      written(putOut(["1"], "2026-04-01")),
      written(look("1", "2026-04-02", 0.5)),
      written({ kind: "unblinding" }),
    ];
    for (const one of sent) await record(one);
    const trial = await store.trials.find(id);
    expect(trial?.observations).toEqual([plan, ...sent.map((one) => ({ ...one, recordedAt: at }))]);
  });

  test("a correction leaves the row that it replaces", async () => {
    const { store, id, record } = await shopWithTrial();
    const first = written(look("1", "2026-04-02", 5));
    await record(first);
    await record(written(look("1", "2026-04-02", 0.5), { corrects: { id: first.id, why: "read the wrong line" } }));
    const looks = (await store.trials.find(id))?.observations.filter((one) => one.body.kind === "look");
    expect(looks).toMatchObject([
      { id: first.id, body: { rustedPercent: 5 } },
      { corrects: { id: first.id, why: "read the wrong line" }, body: { rustedPercent: 0.5 } },
    ]);
  });

  test("two corrections of one observation: the database itself takes only the first", async () => {
    const { record } = await shopWithTrial();
    const first = written(look("1", "2026-04-02", 5));
    await record(first);
    const corrects = { id: first.id, why: "misread" };
    await record(written(look("1", "2026-04-02", 1), { corrects }));
    await expect(record(written(look("1", "2026-04-02", 2), { corrects }))).rejects.toThrow(/UNIQUE/i);
  });

  test("sent twice, kept once, answered alike", async () => {
    const { store, id, record } = await shopWithTrial();
    const one = written(look("1", "2026-04-02"));
    const first = await record(one);
    const refuse = () => {
      throw new Error("a repeat is not judged again");
    };
    expect(await record(one, "2026-04-02T09:00:00.000Z", refuse)).toEqual(first);
    expect((await store.trials.find(id))?.observations).toHaveLength(2);
  });

  test.each([
    ["another percentage", (one: NewObservation) => ({ ...one, body: look("1", "2026-04-02", 3) })],
    ["another writer", (one: NewObservation) => ({ ...one, by: "Ben" })],
  ])("the same id with %s is refused", async (_what, changed) => {
    const { record } = await shopWithTrial();
    const one = written(look("1", "2026-04-02"));
    await record(one);
    await expect(record(changed(one))).rejects.toThrow(Conflict);
  });

  test("an id that another trial has is refused, even with the same content", async () => {
    const { store, record } = await shopWithTrial();
    const one = written(look("1", "2026-04-02"));
    await record(one);
    const other = { id: randomUUID(), name: "roof", createdAt: at };
    await store.trials.start(other, [{ ...written({ kind: "plan", plan: shedPlan }), recordedAt: at }]);
    await expect(store.trials.record(other.id, { ...one, recordedAt: at }, takeAll)).rejects.toThrow(Conflict);
  });

  test("what the check refuses leaves nothing behind", async () => {
    const { store, id, record } = await shopWithTrial();
    const refuse = () => {
      throw new Error("no");
    };
    await expect(record(written(look("1", "2026-04-02")), at, refuse)).rejects.toThrow("no");
    expect((await store.trials.find(id))?.observations).toHaveLength(1);
  });

  test("writes that arrive together do not lose each other", async () => {
    const { store, id, record } = await shopWithTrial();
    const sent = Array.from({ length: 30 }, (_, n) => written(look("1", "2026-04-02", n)));
    await Promise.all(sent.map((one) => record(one)));
    const ids = (await store.trials.find(id))?.observations.map((one) => one.id);
    expect(new Set(ids?.slice(1))).toEqual(new Set(sent.map((one) => one.id)));
  });
});

describe("trials", () => {
  test("a trial that is not there is null, not an empty one", async () => {
    const { store } = await shopWithTrial();
    expect(await store.trials.find(randomUUID())).toBeNull();
    const one = { ...written({ kind: "unblinding" }), recordedAt: at };
    expect(await store.trials.record(randomUUID(), one, takeAll)).toBeNull();
  });

  test("started twice, kept once; another plan under its id is refused", async () => {
    const { store, id } = await shopWithTrial();
    const again = (question: string) =>
      store.trials.start({ id, name: "shed", createdAt: at }, [
        { ...written({ kind: "plan", plan: { ...shedPlan, question } }), recordedAt: at },
      ]);
    expect((await again(shedPlan.question)).observations).toHaveLength(1);
    await expect(again("Another?")).rejects.toThrow(/expected a new id: a trial named "shed" has it/);
  });

  test("the summary follows a corrected plan and a withdrawn unblinding", async () => {
    const { store, id, plan, record } = await shopWithTrial();
    const unblinding = written({ kind: "unblinding" });
    await record(unblinding);
    const summary = { id, name: "shed", createdAt: at, question: shedPlan.question, coupons: 7, unblinded: true };
    expect(await store.trials.list()).toEqual([summary]);
    await record(written({ kind: "withdrawal" }, { corrects: { id: unblinding.id, why: "pressed by mistake" } }));
    const better = { ...shedPlan, question: "And in winter?" };
    await record(written({ kind: "plan", plan: better }, { corrects: { id: plan.id, why: "asked too little" } }));
    expect(await store.trials.list()).toEqual([{ ...summary, question: "And in winter?", unblinded: false }]);
  });
});
