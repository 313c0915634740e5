import { expect, test } from "vitest";
import type { PlanDraft } from "../../api/plan.ts";
import { answerQuestion } from "../../core/trial/answer-question.ts";
import { drawPlan } from "../../core/trial/draw-plan.ts";
import { verdicts } from "../../core/trial/finding.ts";
import { trialQuestions } from "../../core/trial/trial-questions.ts";
import { type ObservationBody, trialRecord } from "../../core/trial/trial-record.ts";
import { dateAfter, diaryOf } from "./demo-diary.ts";
import { stepsDone, whatWentWrong } from "./demo-events.ts";
import { rustedOnDayOf, trueShares } from "./demo-rust.ts";
import { fenceTrial, primerTrial } from "./scenario.ts";

const start = "2026-04-02";

/** A trial of the demonstration as it truly went, without its pictures. */
function told(name: string, draft: PlanDraft, seen: (plan: ReturnType<typeof drawPlan>) => ObservationBody[]) {
  const plan = drawPlan(draft);
  const diary = diaryOf(name);
  diary.write(start, { kind: "plan", plan });
  for (const body of [...stepsDone(plan, start), ...whatWentWrong(plan)]) diary.write(start, body);
  diary.write(start, { kind: "put out", site: "rack", date: start, coupons: plan.places.map((place) => place.coupon) });
  for (const body of seen(plan)) diary.write(start, body);
  return trialQuestions(trialRecord({ id: name, name }, diary.pages)).map((question) => answerQuestion(question));
}

const rack = () =>
  told(fenceTrial.name, fenceTrial.draft, (plan) =>
    fenceTrial.draft.lookDays.flatMap((day) =>
      plan.places.map((place) => {
        const shares = trueShares(rustedOnDayOf(fenceTrial.truth, plan, place), day);
        const when = { date: dateAfter(start, day) };
        return {
          kind: "look" as const,
          coupon: place.coupon,
          face: "front" as const,
          when,
          ...shares,
          how: "photo" as const,
          blind: true,
          measurement: null,
        };
      }),
    ),
  );

const primer = () =>
  told(primerTrial.name, primerTrial.draft, (plan) =>
    plan.treatments.flatMap(({ name }) =>
      plan.places
        .filter((place) => place.treatment === name)
        .map(({ coupon }, at) => ({
          kind: "tape test" as const,
          coupon,
          when: { date: dateAfter(start, 14) },
          tapeClass: (primerTrial.tapeClasses as Record<string, readonly ("5B" | "4B" | "2B" | "1B" | "0B")[]>)[name]![
            at
          ]!,
          blind: true,
          note: "",
        })),
    ),
  );

test("the demonstration comes to each of the five verdicts", () => {
  const said = new Set([...rack(), ...primer()].flatMap(({ findings }) => findings.map((finding) => finding.verdict)));
  expect([...said].sort()).toEqual([...verdicts].sort());
});

test("six coupons in one pot of wax say nothing, however clean they stayed", () => {
  const [timeToRust] = rack();
  const wax = timeToRust!.findings.find(
    (one) => one.first === "phosphate + melted wax" && one.second === timeToRust!.control,
  );
  expect(wax).toMatchObject({ n: [1, 6], verdict: "cannot be told" });
});

test("edge goes before the face, and rust never goes back", () => {
  expect(trueShares(10, 8)).toMatchObject({ rustedPercent: 0, edgePercent: expect.closeTo(1.4, 0) });
  for (let day = 0; day < 60; day++) {
    const [today, tomorrow] = [trueShares(10, day), trueShares(10, day + 1)];
    expect(tomorrow.rustedPercent).toBeGreaterThanOrEqual(today.rustedPercent);
    expect(tomorrow.edgePercent).toBeGreaterThanOrEqual(today.edgePercent);
  }
});
