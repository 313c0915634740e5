/** What makes a face count as rusted in a trial: a percent, a class, or nothing that was ever looked at. */
import { isPercentLook, type TrialRecord } from "./trial-record.ts";

/**
 * "percent": above the plan's threshold. "class": any class worse than the scale's best. null: nobody looks for rust (a
 * trial of tape tests, strokes or values) or the times of rust were handed over without the looks.
 */
export function countsAsRusted({ looks, plan }: Pick<TrialRecord, "looks" | "plan">): "percent" | "class" | null {
  if (looks.length === 0) return plan.lookDays.length > 0 && asksOfRust(plan) ? "percent" : null;
  return looks.some(({ body }) => isPercentLook(body)) ? "percent" : "class";
}

const ofRust: readonly string[] = ["time to first rust", "rusted area", "grade"];
const asksOfRust = ({ questions }: Pick<TrialRecord["plan"], "questions">): boolean =>
  questions.some(({ response }) => ofRust.includes(response));
