import { describe, expect, test } from "vitest";
import type { DeclaredQuestion } from "./declared-question.ts";
import { type Declaration, markedQuestions, type ResultKind } from "./declared-too-late.ts";

const rust: DeclaredQuestion = { response: "time to first rust", family: "control", margin: 1.5, atDay: null };
const area: DeclaredQuestion = { response: "rusted area", family: "control", margin: 2, atDay: 28 };
const tape: DeclaredQuestion = { response: "tape class", family: "control", margin: 1, atDay: null };
const mass: DeclaredQuestion = {
  response: "value",
  name: "coating mass",
  kind: "continuous",
  better: "higher",
  unit: "g/m²",
  ratio: false,
  scale: null,
  family: "pairs",
  margin: null,
  atDay: null,
};
const first: Declaration = {
  questions: [rust, area, tape, mass],
  couponSize: { lengthMm: 100, widthMm: 60, thicknessMm: 2 },
  edgeBandMm: 5,
  rustThresholdPercent: 0.01,
  lookDays: [1, 7, 28],
};
/** Responses that are exploratory after a correction that was made when these results were there. */
const late = (change: Partial<Declaration>, seen: ResultKind[]) =>
  markedQuestions([
    { declaration: first, seen: [] },
    { declaration: { ...first, ...change }, seen },
  ])
    .filter((one) => one.exploratory)
    .map((one) => one.response);

describe("a question changed when its results were known", () => {
  const looser = { questions: [{ ...rust, margin: 1.2 }, area, tape, mass] };
  test.each<[string, Partial<Declaration>, ResultKind[], string[]]>([
    ["before the first look anything may change", looser, [], []],
    ["a tape test on other coupons tells nothing of rust", looser, ["tape test"], []],
    ["after a look a new margin makes it exploratory, and it alone", looser, ["look"], ["time to first rust"]],
    ["known times do as a look does", looser, ["first rust"], ["time to first rust"]],
    ["another day", { questions: [rust, { ...area, atDay: 7 }, tape, mass] }, ["look"], ["rusted area"]],
    ["another family", { questions: [rust, area, { ...tape, family: "pairs" }, mass] }, ["tape test"], ["tape class"]],
    ["asked after a look", { questions: [rust, area, tape, mass, { ...area, atDay: 7 }] }, ["look"], ["rusted area"]],
    ["a value, once one was measured", { questions: [rust, area, tape, { ...mass, margin: 2 }] }, ["value"], ["value"]],
    ["only look days added", { lookDays: [1, 4, 7, 28, 56] }, ["look"], []],
    [
      "a look day taken out: all that is read from looks",
      { lookDays: [1, 28] },
      ["look"],
      ["time to first rust", "rusted area"],
    ],
    ["another threshold", { rustThresholdPercent: 0.1 }, ["look"], ["time to first rust", "rusted area"]],
    ["another edge band", { edgeBandMm: 8 }, ["look"], ["time to first rust", "rusted area"]],
    ["another threshold before the first look", { rustThresholdPercent: 0.1 }, ["tape test"], []],
    ["one left out, the others as they were", { questions: [rust, mass] }, ["look"], []],
    ["another order of asking", { questions: [mass, tape, area, rust] }, ["look"], []],
  ])("%s", (_, change, seen, responses) => expect(late(change, seen)).toEqual(responses));

  test("changed back it stays exploratory: the other margin was looked for", () => {
    const [back] = markedQuestions([
      { declaration: first, seen: [] },
      { declaration: { ...first, ...looser }, seen: ["look"] },
      { declaration: first, seen: ["look"] },
    ]);
    expect(back).toEqual({ ...rust, exploratory: true });
  });

  test("one that a table brought as exploratory stays so through a correction", () => {
    const brought = { ...first, questions: [{ ...rust, exploratory: true as const }] };
    const wordings = [brought, { ...first, questions: [rust] }].map((declaration) => ({ declaration, seen: [] }));
    expect(markedQuestions(wordings)).toEqual([{ ...rust, exploratory: true }]);
  });

  test("a plan that came in together with its looks was not declared late by that", () =>
    expect(markedQuestions([{ declaration: first, seen: ["look"] }])).toEqual(first.questions));
});
