/** The question that a plan will be asked, before anything has been seen. */
import { comparisonGroups } from "./comparison-groups.ts";
import type { CouponPlace } from "./coupon-place.ts";
import { ownTest } from "./coupons-of-question.ts";
import { type DeclaredQuestion, responseKind, responseName } from "./declared-question.ts";
import type { Question } from "./question.ts";
import { type ScaleEnds, scaleEnds, tapeScaleEnds } from "./scale-ends.ts";
import { spreadOf } from "./spread-acceptance.ts";
import { trialApplications } from "./trial-applications.ts";
import { nothingObserved, type Plan, type TrialRecord } from "./trial-record.ts";

/** The trial as if everything had gone as planned and every coupon had been seen: only its layout is asked. */
export function plannedQuestion(plan: Plan, declared: DeclaredQuestion): Question {
  const control = plan.treatments.find((one) => one.role === "control")?.name ?? null;
  const witnesses = plan.treatments.filter((one) => one.role === "witness").map((one) => one.name);
  const others = plan.treatments.map((one) => one.name).filter((name) => !witnesses.includes(name));
  const groups = comparisonGroups(others, { control, witness: null, family: declared.family });
  const record: TrialRecord = { id: "", name: "", plan, ...nothingObserved };
  const applications = trialApplications(record);
  const response = plannedResponse(plan, declared);
  return {
    ...groups,
    witnesses,
    ...response,
    margin: declared.margin,
    // A spare is no unit: it goes out only when another is lost.
    coupons: plan.places
      .filter((place) => isRead(plan, declared, place))
      .map(({ coupon, treatment, block, batch }) => ({
        coupon,
        treatment,
        block,
        ...(batch === undefined ? {} : { plot: batch }),
        applications: applications.get(coupon) ?? {},
        circumstances: {},
        deviation: null,
        datum: response.kind === "time" ? { left: 0, right: 1 } : { value: 1 },
      })),
    routes: Object.fromEntries(
      plan.treatments.map(({ name, route }) => [name, (route ?? []).map((step) => step.name)]),
    ),
    randomised: true,
    blind: true,
    declared: true,
    treatedSeparately: "recorded",
    ...spreadOf(plan),
    ...(declared.order === undefined ? {} : { order: declared.order }),
    seed: 1,
    notes: [],
  };
}

/** A coupon kept for a destructive test is read by that test alone. */
function isRead({ places }: Plan, declared: DeclaredQuestion, { spare, keptFor }: CouponPlace): boolean {
  return !spare && keptFor === (ownTest(places, declared) ?? undefined);
}

type PlannedResponse = Pick<
  Question,
  "response" | "kind" | "unit" | "better" | "ratio" | "detectionLimitPercent" | "scale"
>;

function plannedResponse(plan: Plan, declared: DeclaredQuestion): PlannedResponse {
  const limit = plan.rustThresholdPercent;
  const common = {
    response: responseName(declared),
    kind: responseKind(declared),
    better: "higher",
    ratio: false,
    detectionLimitPercent: null,
    scale: null,
  } as const;
  switch (declared.response) {
    case "time to first rust":
      return { ...common, unit: "days" };
    case "strokes to breakthrough":
      return { ...common, unit: "strokes" };
    case "rusted area":
      return { ...common, unit: "%", better: "lower", detectionLimitPercent: limit };
    case "tape class":
      return { ...common, unit: "classes", scale: tapeScaleEnds };
    case "grade":
      return { ...common, unit: "classes", ...classesOf(scaleEnds[declared.scale]) };
    case "value": {
      const { unit, better, ratio, scale, kind } = declared;
      return { ...common, unit, better, ratio, scale, detectionLimitPercent: kind === "area" ? limit : null };
    }
  }
}

function classesOf(scale: ScaleEnds): Pick<PlannedResponse, "scale" | "better"> {
  return { scale, better: scale.best > scale.worst ? "higher" : "lower" };
}
