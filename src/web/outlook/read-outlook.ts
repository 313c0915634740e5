/** The outlook of a draft, or why none can be given yet, with the field that stands in the way. */
import { InputError } from "../../core/input-error.ts";
import type { DrawablePlan } from "../../core/trial/draw-plan.ts";
import type { ExpectedMedians } from "../../core/trial/look-calendar.ts";
import { type PlanOutlook, planOutlook } from "../../core/trial/plan-outlook.ts";

export type OutlookOrRefusal = { outlook: PlanOutlook; refusal: null } | { outlook: null; refusal: string };

export function readOutlook(draft: DrawablePlan, expected: ExpectedMedians | null): OutlookOrRefusal {
  try {
    return { outlook: planOutlook(draft, expected), refusal: null };
  } catch (error) {
    if (error instanceof InputError) return { outlook: null, refusal: error.message };
    throw error;
  }
}
