import { describe, expect, test } from "vitest";
import type { DeclaredQuestion } from "./declared-question.ts";
import { drawPlan } from "./draw-plan.ts";
import { standingCurves } from "./kept-curve.ts";
import { keptMethodWords, keptRows, keptSentences } from "./kept-curve-words.ts";
import { requireAcceptable } from "./observation-rules.ts";
import { planAssumptions } from "./plan-assumptions.ts";
import type { KeptPoint, Simulation } from "./simulation.ts";
import { type Observation, type ObservationBody, trialRecord } from "./trial-record.ts";

const rust: DeclaredQuestion = { response: "time to first rust", family: "control", margin: 1.5, atDay: null };
const plan = drawPlan({
  question: "Does wax help?",
  questions: [rust],
  treatments: ["oil", "wax"].map((name, at) => ({
    name,
    role: at === 0 ? "control" : "finish",
    coupons: 6,
    route: [{ name, treated: "alone" }],
  })),
  blocks: 1,
  sparesOfEach: 0,
  couponSize: { lengthMm: 100, widthMm: 50, thicknessMm: 2 },
  edgeBandMm: 5,
  rustThresholdPercent: 0.01,
  lookDays: [1, 2, 4],
  rackColumns: 6,
  seed: 1,
});

const point = (each: number, shown: number, trials = 2000): KeptPoint => ({
  each,
  line: "one",
  trials,
  shown: { share: shown, error: 0.009 },
  all: { share: shown, error: 0.009 },
  falselyShown: { share: 0.01, error: 0.002 },
});
const id = (at: number) => `00000000-0000-4000-8000-00000000000${at}`;
const curve = (part: Partial<Simulation> = {}): Simulation => ({
  kind: "simulation",
  plan: id(1),
  declared: rust,
  each: 6,
  finishes: 1,
  size: 3,
  assumed: planAssumptions(25),
  scatterFrom: "",
  seed: 1,
  draws: 499,
  program: "0.1.0",
  wanted: 2000,
  points: [point(4, 0.58), point(6, 0.81)],
  ...part,
});
const written = (at: number, body: ObservationBody, corrects: Observation["corrects"] = null): Observation => ({
  id: id(at),
  recordedAt: `2026-05-0${at}T10:00:00Z`,
  by: "Ann",
  corrects,
  body,
});
const trial = (...more: Observation[]) => ({
  id: "t",
  name: "shed",
  observations: [written(1, { kind: "plan", plan }), ...more],
});

describe("a simulated curve is kept with its plan", () => {
  test("and stands in the record", () => {
    requireAcceptable(trial(), written(2, curve()));
    const record = trialRecord({ id: "t", name: "shed" }, trial(written(2, curve())).observations);
    expect(standingCurves(record)).toMatchObject([{ kept: { id: id(2) }, former: false }]);
  });
  test("the newest of a question is shown; after a correction it is said to be of the former plan", () => {
    const later = written(4, { kind: "plan", plan: { ...plan, lookDays: [1, 3, 9] } }, { id: id(1), why: "looks" });
    const observations = trial(written(2, curve()), written(3, curve({ size: 2 })), later).observations;
    expect(standingCurves(trialRecord({ id: "t", name: "shed" }, observations))).toMatchObject([
      { kept: { id: id(3) }, former: true },
    ]);
  });
  test("a withdrawn one is gone", () => {
    const gone = written(3, { kind: "withdrawal" }, { id: id(2), why: "wrong median" });
    expect(standingCurves(trialRecord({ id: "t", name: "" }, trial(written(2, curve()), gone).observations))).toEqual(
      [],
    );
  });
  test.each([
    ["of a plan that the trial never had", { plan: id(7) }, /^plan is .* expected the id of a plan of this trial/],
    ["of a question it did not ask", { declared: { ...rust, margin: 2 } }, /^declared is "time to first rust"/],
    ["with a point twice", { points: [point(6, 0.8), point(6, 0.8)] }, /^points is 6/],
  ])("refused: %s", (_, part, message) =>
    expect(() => requireAcceptable(trial(), written(2, curve(part)))).toThrow(message),
  );
});

describe("what is printed of it", () => {
  test("the sentence is the plan's own number of coupons", () =>
    expect(keptSentences(curve())).toEqual([
      "If the finish held rust off 3 times as long, 6 each would show it in eight trials of 10 (81\u00a0%, give or take 2).",
    ]));
  test("trials, error, seed, version and what was assumed", () =>
    expect(keptMethodWords(curve({ scatterFrom: "Scatter from the shed trial." }), false)).toEqual([
      "2000 invented trials at every point. Monte Carlo standard error at most 0.9 points. Seed 1; 499 random rearrangements in a trial where not all are counted; Coatwright 0.1.0.",
      "Assumed: half of the control has rusted by day 25, Weibull shape 2; between goes that coupons share 0.2 (log); 3 % of the coupons lost. Scatter from the shed trial.",
    ]));
  test("stopped, it says how many each point has", () => {
    const stopped = curve({ points: [point(4, 0.6, 75), point(6, 0.81)] });
    expect(keptMethodWords(stopped, false)[0]).toMatch(
      /^Stopped before its end: 75 to 2000 invented trials at a point/,
    );
    expect(keptRows(stopped).map((row) => row.one?.trials)).toEqual([75, 2000]);
  });
});
