/** What the form of a plan gives: the corrected plan and what it means, or what stands in its way. */
import { InputError } from "../../core/input-error.ts";
import { type CorrectionMeans, correctionMeans, requirePlanCorrection } from "../../core/trial/plan-correction.ts";
import { requirePlan } from "../../core/trial/plan-rules.ts";
import type { Plan, TrialRecord } from "../../core/trial/trial-record.ts";
import type { TrialForm } from "../new-trial/trial-form.ts";
import { correctPlanText as text } from "../text/correct-plan.ts";
import { type Correcting, planOf } from "./plan-form.ts";

export type PlanRead =
  | { plan: Plan; means: CorrectionMeans; refusal?: never; problems?: never }
  | { plan: null; means?: never; refusal: string; problems: Record<string, string> };

export function planRead(form: TrialForm, correcting: Correcting, record: TrialRecord): PlanRead {
  try {
    const read = planOf(form, correcting);
    if (read.plan === null) {
      const problems = read.problems.map((one) => [one.pointer, one.detail] as const);
      return { plan: null, refusal: problems[0]?.[1] ?? text.unfinished, problems: Object.fromEntries(problems) };
    }
    requirePlan(read.plan);
    requirePlanCorrection(record, read.plan);
    const means = correctionMeans(record, read.plan);
    if (means.changes.length === 0) return { plan: null, refusal: text.nothing, problems: {} };
    return { plan: read.plan, means };
  } catch (error) {
    if (error instanceof InputError) return { plan: null, refusal: error.message, problems: {} };
    throw error;
  }
}
