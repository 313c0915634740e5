import { describe, expect, test } from "vitest";
import { lost, putOut, smallPlan, smallRecord } from "../../../tests/small-trial.ts";
import {
  countsDays,
  couponsOut,
  couponsWithStep,
  doneAlone,
  rackOf,
  startDate,
  stepsOf,
  throughStep,
} from "./where-it-stands.ts";

describe("where a trial stands", () => {
  test("indoors: no start, nobody out", () => {
    expect(startDate(smallRecord())).toBeNull();
    expect(couponsOut(smallRecord())).toEqual([]);
  });
  test("the first day outdoors is day 0, also when some follow later", () => {
    const later = { ...putOut, date: "2026-03-04", coupons: ["4"] };
    expect(startDate(smallRecord([later, putOut]))).toBe("2026-03-01");
  });
  test("a lost coupon is out no longer and crossed on the rack", () => {
    const record = smallRecord([putOut, lost]);
    expect(couponsOut(record)).toEqual(["1", "3"]);
    expect(
      rackOf(record)
        ?.filter((one) => one.gone)
        .map((one) => one.coupon),
    ).toEqual(["2"]);
  });
  test("a deviation flags its coupons; one on paper only does not", () => {
    const deviation = (coupons: string[], paperworkOnly: boolean) =>
      ({ kind: "deviation", coupons, step: null, what: "touched", paperworkOnly }) as const;
    const rack = rackOf(smallRecord([deviation(["1"], false), deviation(["3"], true)]));
    expect(rack?.filter((one) => one.flagged).map((one) => one.coupon)).toEqual(["1"]);
  });
  test("no rack written down: none is drawn", () => {
    const places = smallPlan.places.map((place) => ({ ...place, rack: null }));
    expect(rackOf(smallRecord([], { ...smallPlan, places }))).toBeNull();
  });
  test("a fresh trial goes by dates", () => expect(countsDays(smallRecord())).toBe(false));
});

describe("steps and who goes through them", () => {
  const record = smallRecord([
    {
      kind: "application",
      step: "emulsion oil",
      coupons: ["1"],
      startedAt: "2026-02-27T09:00:00Z",
      endedAt: null,
      tempC: null,
      note: "",
    },
  ]);
  test("each step once, in order", () =>
    expect(stepsOf(record)).toEqual(["alkaline cleaner", "emulsion oil", "manganese phosphate"]));
  test("the bath is only for those whose route has it", () =>
    expect(couponsWithStep(record, "manganese phosphate")).toEqual(["1"]));
  test("oiled one by one, cleaned together", () => {
    expect(doneAlone(record, "emulsion oil", ["1", "2"])).toBe(true);
    expect(doneAlone(record, "alkaline cleaner", ["1", "2"])).toBe(false);
  });
  test("who went through it", () => expect([...throughStep(record, "emulsion oil")]).toEqual(["1"]));
});
