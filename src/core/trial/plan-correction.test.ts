import { describe, expect, test } from "vitest";
import { type DrawablePlan, drawPlan } from "./draw-plan.ts";
import { requireAcceptable } from "./observation-rules.ts";
import { changeWords, planChanges } from "./plan-changes.ts";
import { correctedPlan } from "./plan-correction.ts";
import { type Observation, type ObservationBody, type Plan, trialRecord } from "./trial-record.ts";

const draft: DrawablePlan = {
  question: "Does wax keep longer?",
  questions: [{ response: "time to first rust", family: "pairs", margin: 1.5, atDay: null }],
  treatments: ["oil", "wax"].map((name) => ({
    name,
    role: "finish",
    route: [{ name: `${name} it`, treated: "alone" }],
    coupons: 4,
  })),
  couponSize: { lengthMm: 100, widthMm: 60, thicknessMm: 3 },
  edgeBandMm: 5,
  rustThresholdPercent: 0.01,
  lookDays: [1, 7],
  blocks: 2,
  rackColumns: 4,
  sparesOfEach: 1,
  seed: 7,
};
const plan = drawPlan(draft);
const open = { seed: 8, lotFollowed: false };
const words = (after: Plan) =>
  planChanges(plan, after).map((change) => changeWords(change, (mm) => `${mm.join(" × ")} mm`));
const withNames = (...names: string[]): DrawablePlan => ({
  ...draft,
  treatments: draft.treatments.map((one, at) => ({ ...one, name: names[at]! })),
});

describe("the plan that a changed draft gives", () => {
  test("nothing changed: the same plan, and nothing to say", () => {
    expect(correctedPlan(plan, draft, open)).toEqual(plan);
    expect(words(plan)).toEqual([]);
  });

  test("another wording, margin or look day keeps the lot", () => {
    const after = correctedPlan(plan, { ...draft, question: "Wax or oil?", lookDays: [1, 4, 7], edgeBandMm: 6 }, open);
    expect(after.places).toEqual(plan.places);
    expect(after.allocation).toEqual({ how: "drawn", seed: 7 });
    expect(words(after)).toEqual([
      "the question in words: “Wax or oil?” instead of “Does wax keep longer?”",
      "edge band: 6 mm instead of 5 mm",
      "look days: 1, 4, 7 instead of 1, 7",
    ]);
  });

  test("a treatment with another name keeps its coupons", () => {
    const after = correctedPlan(plan, withNames("emulsion oil", "wax"), open);
    expect(after.places.map((one) => one.treatment)).toEqual(
      plan.places.map((one) => (one.treatment === "oil" ? "emulsion oil" : "wax")),
    );
    expect(words(after)).toEqual(["treatment oil: emulsion oil, finish: oil it instead of oil, finish: oil it"]);
  });

  test("more coupons: a new lot, with the new seed", () => {
    const more = { ...draft, treatments: draft.treatments.map((one) => ({ ...one, coupons: 6 })) };
    const after = correctedPlan(plan, more, open);
    expect(after).toEqual(drawPlan({ ...more, seed: 8 }));
    expect(words(after)).toEqual([
      "coupons: 14 in 2 blocks, 2 of them spares, drawn with seed 8 instead of 10 in 2 blocks, 2 of them spares, drawn with seed 7",
    ]);
  });

  test("once the lot was followed, who gets what stays as it was", () => {
    const after = correctedPlan(plan, { ...withNames("a", "b"), edgeBandMm: 6 }, { seed: 8, lotFollowed: true });
    expect(after).toEqual({ ...plan, edgeBandMm: 6 });
  });

  test("invented stays invented, also through a new draw", () =>
    expect(correctedPlan({ ...plan, invented: true }, { ...draft, blocks: 1 }, open).invented).toBe(true));
});

describe("what is said of a changed question", () => {
  const [asked] = plan.questions;
  test.each<[string, Plan["questions"], string[]]>([
    [
      "a margin",
      [{ ...asked!, margin: 2 }],
      ["time to first rust, smallest difference that matters: 2 instead of 1.5"],
    ],
    [
      "no margin",
      [{ ...asked!, margin: null }],
      ["time to first rust, smallest difference that matters: none instead of 1.5"],
    ],
    [
      "a second question",
      [asked!, { response: "rusted area", family: "pairs", margin: null, atDay: 7 }],
      ["rusted area, asked: every pair, on day 7, new"],
    ],
    [
      "one that is dropped",
      [],
      ["time to first rust, asked: no longer (it was every pair, smallest difference that matters 1.5)"],
    ],
  ])("%s", (_, questions, said) => expect(words({ ...plan, questions })).toEqual(said));
});

const said = (id: string, body: ObservationBody, corrects: string | null = null): Observation => ({
  id,
  recordedAt: "2026-05-01T08:00:00Z",
  by: "Ada",
  corrects: corrects === null ? null : { id: corrects, why: "thought again" },
  body,
});
const made = said("plan", { kind: "plan", plan });
const waxed = plan.places.find((one) => one.treatment === "wax")!.coupon;
const deviation = said("d", { kind: "deviation", coupons: [waxed], step: null, what: "fell", paperworkOnly: false });
const correct = (before: Observation[], after: Plan) =>
  requireAcceptable(
    { id: "t", name: "shed", observations: before },
    said("new", { kind: "plan", plan: after }, "plan"),
  );

describe("what may be kept", () => {
  const otherLot = correctedPlan(plan, { ...draft, blocks: 1 }, open);
  test("before anything was done, another lot with a seed of its own", () => {
    expect(() => correct([made], otherLot)).not.toThrow();
    const sameSeed = drawPlan({ ...draft, blocks: 1 });
    expect(() => correct([made], sameSeed)).toThrow(/^plan\.allocation\.seed is 7; expected a seed of its own/);
  });

  test("after a deviation, what is asked and measured but not who got what", () => {
    expect(() => correct([made, deviation], { ...plan, edgeBandMm: 6, lookDays: [1] })).not.toThrow();
    expect(() => correct([made, deviation], otherLot)).toThrow(/^plan\.places .* something was done to the coupons/);
    const renamed = correctedPlan(plan, withNames("emulsion oil", "wax"), open);
    expect(() => correct([made, deviation], renamed)).toThrow(
      /^plan\.treatments is "emulsion oil, wax"; expected oil, wax/,
    );
  });

  test("the first wording is kept, and what was withdrawn does not bind", () => {
    const withdrawn = said("w", { kind: "withdrawal" }, "d");
    expect(() => correct([made, deviation, withdrawn], otherLot)).not.toThrow();
    const record = trialRecord({ id: "t", name: "shed" }, [
      made,
      said("new", { kind: "plan", plan: otherLot }, "plan"),
    ]);
    expect(record.plans.map((one) => one.body.plan)).toEqual([plan, otherLot]);
    expect(record.plan).toEqual(otherLot);
  });

  test("never what says that the data are invented", () =>
    expect(() => correct([made], { ...plan, invented: true })).toThrow(/^plan\.invented is true; expected false/));
});
