import { describe, expect, test } from "vitest";
import type { DeclaredQuestion } from "./declared-question.ts";
import { type DrawablePlan, drawPlan } from "./draw-plan.ts";
import { requireAcceptable } from "./observation-rules.ts";
import { plannedQuestion } from "./planned-question.ts";
import { trialQuestions } from "./trial-questions.ts";
import { type Observation, trialRecord } from "./trial-record.ts";
import type { WeighedState } from "./weighed-as.ts";
import { couponsToWeigh } from "./weighed-coupons.ts";
import { weighingGroups } from "./weighing.ts";

const rust: DeclaredQuestion = { response: "time to first rust", family: "pairs", margin: null, atDay: null };
const stripped: DeclaredQuestion = {
  ...{ response: "value", name: "coating mass", kind: "continuous", better: "higher", unit: "g/m²" },
  ...{ ratio: false, scale: null, weighed: "stripping", family: "pairs", margin: null, atDay: null },
};
const draft: DrawablePlan = {
  question: "Does a heavier coat last longer?",
  questions: [rust, stripped],
  treatments: [
    ...["short bath", "long bath"].map((name) => ({ name, role: "finish" as const, route: [], coupons: 4 })),
    { name: "bare", role: "witness", route: [], coupons: 2 },
  ],
  testCoupons: [{ test: "weighing by stripping", ofEach: 3 }],
  couponSize: { lengthMm: 100, widthMm: 50, thicknessMm: 2 },
  edgeBandMm: 5,
  rustThresholdPercent: 0.01,
  lookDays: [7],
  blocks: 1,
  rackColumns: 5,
  sparesOfEach: 1,
  seed: 3,
};
const plan = drawPlan(draft);
const numbersOf = (which: (place: (typeof plan.places)[number]) => boolean) =>
  plan.places.filter(which).map((place) => place.coupon);
const kept = numbersOf(({ keptFor }) => keptFor === "weighing by stripping");
const witnesses = numbersOf(({ treatment, spare }) => treatment === "bare" && !spare);
const hung = numbersOf(({ rack, treatment }) => rack !== null && treatment !== "bare");

const observation = (body: Observation["body"], id: string): Observation => ({
  ...{ id, recordedAt: "2026-04-01T08:00:00Z", by: "A", corrects: null, body },
});
const weighing = (coupon: string, state: WeighedState, massG: number) =>
  observation(
    {
      ...{ kind: "weighing", coupon, with: [], state, massG, balanceMg: 1 },
      ...{ when: { date: "2026-04-02" }, blind: true, note: "" },
    },
    `${coupon} ${state}`,
  );
const planned = observation({ kind: "plan", plan }, "plan");

describe("a plan that weighs by stripping", () => {
  test("keeps coupons of their own where others go out: 4 of each and 2 witnesses for rust, 3 of each for the mass", () =>
    expect(plan.questions.map((declared) => plannedQuestion(plan, declared).coupons.length)).toEqual([10, 6]));

  test("without such coupons it is refused at their field, and says why", () =>
    expect(() => drawPlan({ ...draft, testCoupons: [] })).toThrow(
      /^testCoupons\.stripped is 0; expected 3 or more coupons .* stripping takes the coating off/,
    ));

  test.each([
    ["nothing but the mass is asked", [stripped]],
    ["nobody strips", [rust]],
  ])("none are needed where %s", (_what, questions) =>
    expect(() => drawPlan({ ...draft, questions, testCoupons: [] })).not.toThrow(),
  );

  test("stripped are the kept ones, and bare witnesses as blanks; bare and coated the spares too", () => {
    expect(couponsToWeigh(plan, "stripped")).toEqual(
      new Set(
        numbersOf((one) => [...kept, ...witnesses].includes(one.coupon) || (one.treatment === "bare" && one.spare)),
      ),
    );
    for (const spare of numbersOf((place) => place.spare)) expect(couponsToWeigh(plan, "bare")).toContain(spare);
    for (const one of hung) expect(couponsToWeigh(plan, "bare")).not.toContain(one);
  });

  test("a coupon that is to go out is not stripped", () => {
    const trial = { id: "t", name: "shed", observations: [planned] };
    expect(() => requireAcceptable(trial, weighing(kept[0]!, "stripped", 70))).not.toThrow();
    expect(() => requireAcceptable(trial, weighing(hung[0]!, "stripped", 70))).toThrow(
      /one of those kept for weighing by stripping/,
    );
  });

  test("the kept ones alone answer it", () => {
    const weighed = kept.flatMap((coupon, at) => [
      weighing(coupon, "bare", 70),
      weighing(coupon, "coated", 70.1 + at / 1000),
      weighing(coupon, "stripped", 69.95),
    ]);
    const record = trialRecord({ id: "t", name: "shed" }, [planned, ...weighed]);
    const mass = trialQuestions(record).find(({ response }) => response === "coating mass");
    expect(mass?.coupons.map(({ coupon }) => coupon)).toEqual(kept);
  });

  test("one by one, the sheet runs in the order of the numbers: no treatment can be read from it", () => {
    const record = trialRecord({ id: "t", name: "shed" }, [planned]);
    const rows = weighingGroups(record, 1, couponsToWeigh(plan, "bare")).flat().map(Number);
    expect(rows).toEqual([...rows].sort((a, b) => a - b));
    expect(rows).toHaveLength(kept.length + witnesses.length + 3);
  });
});
