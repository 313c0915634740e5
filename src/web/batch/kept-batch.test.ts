import { beforeEach, expect, test, vi } from "vitest";
import type { Measurement } from "../../api/photo.ts";
import { type BatchRow, rowsOf } from "./batch-rows.ts";
import { keepBatch, readBatch } from "./kept-batch.ts";

const trial = "0b7c2f3e-6d1a-4f52-9d0e-1f0c6a7b8d90";
const rows = rowsOf([new File(["abc"], "1.jpg"), new File([], "2.jpg")], ["1", "2"]);
const measured: BatchRow = { ...rows[0]!, state: { is: "measured", measurement: {} as Measurement } };
const batch = { face: "back", date: "2026-05-01" } as const;

beforeEach(() => {
  const kept = new Map<string, string>();
  vi.stubGlobal("localStorage", {
    getItem: (key: string) => kept.get(key) ?? null,
    setItem: (key: string, value: string) => kept.set(key, value),
    removeItem: (key: string) => kept.delete(key),
  });
});

test("opened anew: face, date, coupons and looks are there, the files are not", () => {
  keepBatch(trial, { ...batch, rows });
  const again = readBatch(trial)!;
  expect(again).toMatchObject({ ...batch, rows: rows.map(({ file: _, ...row }) => ({ ...row, file: null })) });
  expect(again.rows[0]).toMatchObject({ name: "1.jpg", bytes: 3, coupon: "1" });
});

test("why one was refused is kept; what the shop has is asked for", () => {
  keepBatch(trial, { ...batch, rows: [measured, { ...rows[1]!, state: { is: "refused", why: "too dark" } }] });
  expect(readBatch(trial)!.rows.map(({ state }) => state)).toEqual([
    { is: "chosen" },
    { is: "refused", why: "too dark" },
  ]);
});

test("once all looks are written down nothing is kept", () => {
  keepBatch(trial, { ...batch, rows });
  keepBatch(trial, {
    ...batch,
    rows: [
      { ...measured, isWritten: true },
      { ...rows[1]!, isLeftOut: true },
    ],
  });
  expect(readBatch(trial)).toBeNull();
});

test("a list from before photographs waited in the queue is read; nothing of it waits there", () => {
  keepBatch(trial, { ...batch, rows });
  const key = `coatwright many photographs ${trial}`;
  const kept = JSON.parse(localStorage.getItem(key)!);
  for (const row of kept.rows) {
    delete row.hash;
    delete row.isAsked;
  }
  localStorage.setItem(key, JSON.stringify(kept));
  expect(readBatch(trial)!.rows).toMatchObject([{ hash: null, isAsked: false }, { hash: null }]);
});

test("what an older page kept is not half understood", () => {
  localStorage.setItem(`coatwright many photographs ${trial}`, JSON.stringify({ rows: [{ id: "1" }] }));
  expect(readBatch(trial)).toBeNull();
});
