import { expect, test } from "vitest";
import { countsAsRusted } from "./counts-as-rusted.ts";
import type { DeclaredQuestion } from "./declared-question.ts";
import type { Look, Observed, TrialRecord } from "./trial-record.ts";

const seen = { kind: "look", coupon: "1", face: "front", when: { day: 7 }, edgePercent: null, how: "eye" } as const;
const rest = { ...seen, blind: true, measurement: null };
const byPercent: Look = { ...rest, rustedPercent: 2 };
const byClass: Look = { ...rest, rating: 9, scale: "iso10289" };
const byEye = (body: Look): Observed<Look> => ({
  id: "1",
  by: "me",
  recordedAt: "2026-05-08T09:00:00Z",
  corrects: null,
  body,
});

const ofRust: DeclaredQuestion = { response: "rusted area", atDay: null, family: "pairs", margin: null };
const ofTape: DeclaredQuestion = { response: "tape class", atDay: null, family: "pairs", margin: null };

test("a day planned for a tape test alone says nothing of rust", () => {
  const counts = (questions: DeclaredQuestion[]) =>
    countsAsRusted({ plan: { lookDays: [14], questions } as TrialRecord["plan"], looks: [] });
  expect([counts([ofTape]), counts([ofTape, ofRust])]).toEqual([null, "percent"]);
});

test.each<[string, number[], Look[], ReturnType<typeof countsAsRusted>]>([
  // what                            looks planned  looks made             rusted by
  ["looks are planned", [1, 7], [], "percent"],
  ["only classes were read", [7], [byClass], "class"],
  ["percents were read", [7], [byPercent], "percent"],
  ["some of each", [7], [byClass, byPercent], "percent"],
  ["only tape tests or values", [], [], null],
])("%s", (_what, lookDays, looks, counts) => {
  const plan = { lookDays, questions: [ofRust] } as TrialRecord["plan"];
  expect(countsAsRusted({ plan, looks: looks.map(byEye) })).toBe(counts);
});
