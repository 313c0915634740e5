/** A plan as the curve of chances takes it, and the invented trial behind each of its points. */
import { InputError } from "../../core/input-error.ts";
import type { ChanceLine } from "../../core/trial/chance-curve.ts";
import type { DeclaredQuestion } from "../../core/trial/declared-question.ts";
import type { DrawablePlan } from "../../core/trial/draw-plan.ts";
import type { PlanAssumptions } from "../../core/trial/plan-assumptions.ts";
import { withCoupons } from "../../core/trial/read-coupons.ts";
import { simulatedPlan } from "../../core/trial/simulated-plan.ts";
import type { SimulatedTrial } from "../../core/trial/simulated-trial.ts";

export type ChancePlan = { draft: DrawablePlan; declared: DeclaredQuestion; size: number; assumed: PlanAssumptions };

/** null: this layout cannot be drawn with so many coupons. */
export function trialAt(
  { draft, declared, size, assumed }: ChancePlan,
  each: number,
  line: ChanceLine,
): SimulatedTrial | null {
  const seenDaily = { ...draft, lookDays: everyDay(Math.max(...draft.lookDays)) };
  try {
    return simulatedPlan(withCoupons(line === "daily" ? seenDaily : draft, each, declared), declared, {
      better: line === "daily" ? "one" : line,
      size,
      assumed,
    });
  } catch (error) {
    if (error instanceof InputError) return null;
    throw error;
  }
}

/** Why the plan cannot be simulated as it stands; null: it can. */
export function chanceRefusal({ draft, declared, size, assumed }: ChancePlan): string | null {
  try {
    simulatedPlan(draft, declared, { better: "one", size, assumed });
    return null;
  } catch (error) {
    if (error instanceof InputError) return error.message;
    throw error;
  }
}

const everyDay = (last: number) => Array.from({ length: Math.ceil(last) }, (_, at) => at + 1);
