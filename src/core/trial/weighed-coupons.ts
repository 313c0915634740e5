/** Which coupons are to be weighed in a state, by the questions that ask for it. */
import { InputError } from "../input-error.ts";
import { ownTest } from "./coupons-of-question.ts";
import type { Plan, TrialRecord, Weighing } from "./trial-record.ts";
import { statesOf, type WeighedState } from "./weighed-as.ts";

/**
 * Numbers of coupons. What is stripped is stripped of the coupons kept for it, with the bare witnesses as blanks; spares
 * are weighed along, so that one can stand in, but never stripped where the plan keeps others for that.
 */
export function couponsToWeigh(plan: Plan, state: WeighedState): Set<string> {
  const asked = plan.questions.filter(
    (one) => one.response === "value" && one.weighed !== undefined && statesOf[one.weighed].includes(state),
  );
  const isWitness = (name: string) => plan.treatments.some((one) => one.name === name && one.role === "witness");
  const wanted = plan.places.filter((place) =>
    asked.some((question) => {
      const own = ownTest(plan.places, question);
      if (own === null) return place.keptFor === undefined;
      return place.keptFor === own || isWitness(place.treatment) || (place.spare && state !== "stripped");
    }),
  );
  return new Set(wanted.map(({ coupon }) => coupon));
}

/** Refuses to strip a coupon that is to go out, where the plan keeps others for that. */
export function requireMayBeStripped({ plan }: Pick<TrialRecord, "plan">, { state, coupon, with: others }: Weighing) {
  if (state !== "stripped" || !plan.places.some(({ keptFor }) => keptFor === "weighing by stripping")) return;
  const may = couponsToWeigh(plan, state);
  const hung = [coupon, ...others].find((one) => !may.has(one));
  if (hung !== undefined)
    throw new InputError("coupon", hung, `one of those kept for weighing by stripping: ${[...may].join(", ")}`);
}
