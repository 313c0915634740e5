import { describe, expect, test } from "vitest";
import { drawPlan } from "./draw-plan.ts";
import { requireAcceptable } from "./observation-rules.ts";
import type { TapeTestDetails } from "./tape-test.ts";
import { tapeTestNotes } from "./tape-test.ts";
import { trialQuestions } from "./trial-questions.ts";
import type { Observation, TapeTest } from "./trial-record.ts";
import { trialRecord } from "./trial-record.ts";
import { washPrimerWarning } from "./wash-primer-warning.ts";

const planOf = (steps: readonly string[]) =>
  drawPlan({
    question: "Does paint hold on phosphate?",
    questions: [{ response: "tape class", family: "pairs", margin: null, atDay: null }],
    treatments: steps.map((name) => ({
      name,
      role: "finish",
      route: [
        { name, treated: "alone" },
        { name: "dry", treated: "alone" },
      ],
      coupons: 3,
    })),
    couponSize: { lengthMm: 100, widthMm: 60, thicknessMm: 3 },
    edgeBandMm: 5,
    rustThresholdPercent: 0.01,
    lookDays: [7],
    blocks: 1,
    rackColumns: 3,
    sparesOfEach: 0,
    seed: 7,
  });
const details: TapeTestDetails = {
  cut: { form: "cross-cut", spacingMm: 2, cuts: 6 },
  tape: { name: "roll 3", qualified: true },
  parted: "primer from coating",
  eyeClass: "3B",
  photo: {
    before: "a".repeat(64),
    after: "b".repeat(64),
    overlay: "c".repeat(64),
    method: "tape by cuts 1",
    removedPercent: 4.1,
    span: { from: 3.5, to: 4.6 },
    mapPercents: [],
    tapeClass: "4B",
    isoClass: 1,
  },
  counts: "photo",
  painted: { primer: "epoxy", passes: 2, steelTempC: 21, flashMinutes: 10, cureHours: 96, thicknessUm: 60 },
};
const tape = (coupon: string, change: Partial<TapeTest> = {}): Observation => ({
  id: `tape ${coupon}`,
  recordedAt: "2026-04-02T08:00:00Z",
  by: "A",
  corrects: null,
  body: { kind: "tape test", coupon, when: null, tapeClass: "4B", blind: true, note: "", details, ...change },
});
const planned = (steps: readonly string[]): Observation => ({
  ...tape("1"),
  id: "plan",
  body: { kind: "plan", plan: planOf(steps) },
});
const trialOf = (observations: readonly Observation[]) => ({ id: "t", name: "bench", observations });

describe("what a tape test keeps", () => {
  test.each<[string, Partial<TapeTest>, RegExp]>([
    ["the photograph's counts", { tapeClass: "3B" }, /^tapeClass is "3B"; expected 4B, the class of the photo/],
    [
      "a photograph that is not there",
      { details: { ...details, photo: null } },
      /^details.counts is "photo"; expected "eye"/,
    ],
    [
      "another cut's class",
      { details: { ...details, cut: { form: "x-cut" } } },
      /expected a class ending in A, as the cut is a x-cut/,
    ],
  ])("refuses %s", (_, change, message) =>
    expect(() => requireAcceptable(trialOf([planned(["phosphate", "blasted"])]), tape("1", change))).toThrow(message),
  );
});

describe("what goes with a tape test into the audit", () => {
  const circumstancesOf = (steps: readonly string[]) => {
    const observations = [planned(steps), ...["1", "2", "3", "4", "5", "6"].map((coupon) => tape(coupon))];
    return trialQuestions(trialRecord({ id: "t", name: "bench" }, observations))[0]!.coupons[0]!.circumstances;
  };

  test("paint, tape and cut are circumstances of each coupon", () =>
    expect(circumstancesOf(["phosphate", "blasted"])).toMatchObject({
      primer: "epoxy",
      "passes of primer": 2,
      "steel temperature at painting": 21,
      "cure time": 96,
      tape: "roll 3",
      "spacing of cuts": 2,
    }));

  test("where routes differ in the paint, its passes are the treatment", () => {
    const told = circumstancesOf(["primer, two passes", "primer, one pass"]);
    expect(told).not.toHaveProperty("passes of primer");
    expect(told).toHaveProperty("steel temperature at painting");
  });
});

describe("notes of tape tests", () => {
  test("tests of before say nothing", () => expect(tapeTestNotes([{}, {}])).toEqual([]));

  test("an unqualified tape makes classes comparisons only, and a split crystal is said", () => {
    const other: TapeTestDetails = {
      ...details,
      tape: { name: "parcel tape", qualified: false },
      parted: "within the coating",
      cut: { form: "cross-cut", spacingMm: 1, cuts: 11 },
    };
    expect(tapeTestNotes([{ details }, { details: other }]).join(" ")).toMatch(
      /By comparison only: the tape of 1 of 2 .*parted within the coating.*spacings \(1 and 2 mm\).*2 of 2 classes were read from photographs/,
    );
  });
});

describe("an etch primer on a phosphate coating is warned of", () => {
  test.each<[string, string[], boolean]>([
    ["on the coating", ["manganese phosphate", "dry", "etch primer, two thin passes"], true],
    ["by its other name", ["Phosphating", "wash primer"], true],
    ["on bare steel it is at home", ["degrease", "etch primer"], false],
    ["after the coating was stripped again", ["manganese phosphate", "strip the phosphate", "etch primer"], false],
    ["another primer", ["manganese phosphate", "epoxy primer"], false],
  ])("%s", (_, steps, warned) => {
    const route = steps.map((name) => ({ name, treated: "alone" as const }));
    expect(washPrimerWarning([{ name: "x", route }]) !== null).toBe(warned);
  });

  test("of a route nobody wrote down nothing is said", () =>
    expect(washPrimerWarning([{ name: "x", route: null }])).toBeNull());

  test("of several treatments in one sentence", () => {
    const route = ["phosphating", "etch primer"].map((name) => ({ name, treated: "alone" as const }));
    const treatments = ["thin", "thick"].map((name) => ({ name, route }));
    expect(washPrimerWarning([...treatments, { name: "bare", route: null }])).toMatch(
      /^“thin” and “thick” put an etch/,
    );
  });
});
