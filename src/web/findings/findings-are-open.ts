/** Whether findings may be shown: they name the treatment of each coupon, which would end the blindness of every look. */
import type { TrialRecord } from "../../core/trial/trial-record.ts";

/** A trial whose treatments were never drawn by lot here (a table that names them) has nothing left to hide. */
export function findingsAreOpen({ unblinded, plan }: TrialRecord): boolean {
  return unblinded || plan.allocation.how !== "drawn";
}
