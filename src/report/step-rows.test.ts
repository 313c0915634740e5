import { expect, test } from "vitest";
import type { Application } from "../core/trial/trial-record.ts";
import { stepRows } from "./step-rows.ts";

const done = (step: string, minute: number, coupons: string[], tempC: number | null = null): Application => ({
  kind: "application",
  step,
  coupons,
  startedAt: `2026-05-02T08:${String(minute).padStart(2, "0")}:00Z`,
  endedAt: `2026-05-02T08:${String(minute + 1).padStart(2, "0")}:00Z`,
  tempC,
  note: "",
});

test("coupon after coupon through one step is one row, with the range of its temperatures", () => {
  const rows = stepRows([done("oil", 2, ["2"], 21), done("oil", 0, ["1"], 23), done("boil", 4, ["1", "2"], 100)]);
  expect(rows.map(({ step, coupons, byItself, tempC }) => ({ step, coupons, byItself, tempC }))).toEqual([
    { step: "oil", coupons: ["1", "2"], byItself: true, tempC: { low: 21, high: 23 } },
    { step: "boil", coupons: ["1", "2"], byItself: false, tempC: { low: 100, high: 100 } },
  ]);
  expect(rows[0]).toMatchObject({ startedAt: "2026-05-02T08:00:00Z", endedAt: "2026-05-02T08:03:00Z" });
});

test("a dip of two coupons together is never joined to single dips", () => {
  expect(stepRows([done("oil", 0, ["1"]), done("oil", 2, ["2", "3"]), done("oil", 4, ["4"])])).toHaveLength(3);
});

test("another step between parts them", () => {
  expect(stepRows([done("oil", 0, ["1"]), done("wax", 2, ["1"]), done("oil", 4, ["2"])])).toHaveLength(3);
});
