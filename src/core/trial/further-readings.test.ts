import { describe, expect, test } from "vitest";
import { smallPlan, smallRecord } from "../../../tests/small-trial.ts";
import { furtherReadingNotes, strokesOfCoupons, valuesOfCoupons } from "./further-readings.ts";
import { requireAcceptable } from "./observation-rules.ts";
import { trialCircumstances } from "./trial-circumstances.ts";
import type { MeasuredValue, Observation, ObservationBody, Plan, WearTest } from "./trial-record.ts";
import { readingsFor, trialResponse } from "./trial-responses.ts";
import type { WearConditions } from "./wear-conditions.ts";

const pad: WearConditions = {
  motion: "strokes",
  medium: "felt, oiled",
  grit: null,
  loadG: 500,
  perMinute: 60,
  by: "jig",
};
const wear = (coupon: string, left: number, right: number | null, more: Partial<WearTest> = {}): WearTest => ({
  kind: "wear test",
  coupon,
  place: "face",
  when: { date: "2026-05-01" },
  leftStrokes: left,
  rightStrokes: right,
  blind: true,
  note: "",
  ...more,
});
const value = (coupon: string, of: number, more: Partial<MeasuredValue> = {}): MeasuredValue => ({
  kind: "value",
  coupon,
  name: "mass",
  value: of,
  when: { date: "2026-05-01" },
  how: "bench",
  blind: true,
  note: "",
  ...more,
});

describe("several readings of one coupon count as one coupon", () => {
  test("strokes: the mean of both ends; one run that held to the end leaves it open", () => {
    expect(strokesOfCoupons([wear("1", 40, 50), wear("1", 60, 70), wear("2", 40, 50), wear("2", 80, null)])).toEqual([
      { coupon: "1", left: 50, right: 60 },
      { coupon: "2", left: 60, right: null },
    ]);
  });

  // stats-plan of the project: subsamples are averaged first; ordinal the worse middle one, binary the worse.
  test.each([
    ["numbers: the mean", { kind: "continuous", better: "higher", ratio: false }, [2, 8], 5],
    ["ratios: the geometric mean", { kind: "continuous", better: "higher", ratio: true }, [2, 8], 4],
    ["percents: the mean", { kind: "area", better: "lower", ratio: false }, [1, 2], 1.5],
    [
      "classes, high is good: the lower middle one",
      { kind: "ordinal", better: "higher", ratio: false },
      [5, 3, 4, 2],
      3,
    ],
    ["classes, low is good: the higher middle one", { kind: "ordinal", better: "lower", ratio: false }, [0, 1], 1],
    ["yes and no: the worse", { kind: "binary", better: "higher", ratio: false }, [1, 0, 1], 0],
  ] as const)("%s", (_, asked, values, one) => {
    const found = valuesOfCoupons(
      values.map((of) => value("1", of)),
      asked,
    );
    expect(found).toHaveLength(1);
    expect(found[0]!.value).toBeCloseTo(one, 12);
  });

  test("who reads the answer is told", () => {
    expect(furtherReadingNotes([value("1", 1), value("2", 1), value("1", 2)])).toEqual([
      "Coupon 1: 2 readings taken together as one.",
    ]);
  });
});

const plan: Plan = {
  ...smallPlan,
  questions: [
    { response: "strokes to breakthrough", place: "face", family: "control", margin: 1.5, atDay: null },
    {
      response: "value",
      name: "mass",
      kind: "continuous",
      better: "higher",
      unit: "g/m²",
      ratio: false,
      scale: null,
      family: "control",
      margin: null,
      atDay: null,
    },
  ],
};
const observed = (bodies: ObservationBody[]): Observation[] =>
  bodies.map((body, at) => ({
    id: `00000000-0000-4000-8000-${String(at).padStart(12, "0")}`,
    recordedAt: "2026-05-01T10:00:00Z",
    by: "ada",
    corrects: null,
    body,
  }));
const add = (before: ObservationBody[], body: ObservationBody) =>
  requireAcceptable(
    { id: "t", name: "wear", observations: observed([{ kind: "plan", plan }, ...before]) },
    { ...observed([body])[0]!, id: "10000000-0000-4000-8000-000000000000" },
  );

describe("a second run or value of a coupon", () => {
  test("is refused where nobody says that it is one, and taken where somebody does", () => {
    expect(() => add([wear("1", 40, 50)], wear("1", 45, 55))).toThrow(/correct it/);
    expect(() => add([wear("1", 40, 50)], wear("1", 45, 55, { again: true }))).not.toThrow();
    expect(() => add([value("1", 4)], value("1", 5))).toThrow(/correct it/);
    expect(() => add([value("1", 4)], value("1", 5, { again: true }))).not.toThrow();
  });

  test("of strokes where the others counted turns is refused by what was counted", () => {
    const turned = { conditions: { ...pad, motion: "turns of a tumbler" } } as const;
    expect(() => add([wear("1", 40, 50, { conditions: pad })], wear("2", 400, 500, turned))).toThrow(
      /strokes, as at coupon 1/,
    );
  });

  test("answers as one coupon, and what rubbed it is watched for confounding", () => {
    const record = smallRecord(
      [wear("1", 40, 50, { conditions: pad }), wear("1", 60, 70, { again: true, conditions: pad })],
      plan,
    );
    const [asked] = record.plan.questions;
    const answer = trialResponse(record, asked!, new Set(["1"]));
    expect(answer.data.get("1")).toEqual({ left: 50, right: 60 });
    expect(answer.notes).toContain("Coupon 1: 2 readings taken together as one.");
    const treatments = plan.treatments.map(({ name }) => name);
    expect(trialCircumstances(record, treatments, readingsFor(record, asked!)).get("1")).toMatchObject({
      "what rubs": "felt, oiled",
      "rubbing load": 500,
      "hand or jig": "jig",
    });
  });
});
