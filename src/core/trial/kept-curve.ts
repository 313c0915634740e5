/** A curve of chances as it was simulated, kept with the plan: it is read again without being computed again. */
import { InputError } from "../input-error.ts";
import { sameValue } from "./same-value.ts";
import type { Simulation } from "./simulation.ts";
import type { Observed, TrialRecord } from "./trial-record.ts";

/** Refuses a simulation of a plan that the trial never had, or of a question that it did not ask. */
export function requireSimulation({ plans }: Pick<TrialRecord, "plans">, body: Simulation): void {
  const wording = plans.find((one) => one.id === body.plan);
  if (!wording) throw new InputError("plan", body.plan, "the id of a plan of this trial");
  if (!wording.body.plan.questions.some((one) => sameValue(one, body.declared)))
    throw new InputError("declared", body.declared.response, "a question of that plan, as it was asked");
  const twice = body.points.find((one, at) =>
    body.points.slice(0, at).some((other) => other.each === one.each && other.line === one.line),
  );
  if (twice) throw new InputError("points", twice.each, "each number of coupons once for each truth");
}

export type StandingCurve = { kept: Observed<Simulation> /** The plan was corrected since. */; former: boolean };

/** The newest curve of each question that was simulated, in the order in which they were first kept. */
export function standingCurves({ simulations, plans }: Pick<TrialRecord, "simulations" | "plans">): StandingCurve[] {
  const newest = simulations.filter(
    ({ body }, at) => !simulations.slice(at + 1).some((later) => sameValue(later.body.declared, body.declared)),
  );
  return newest.map((kept) => ({ kept, former: plans.at(-1)?.id !== kept.body.plan }));
}
