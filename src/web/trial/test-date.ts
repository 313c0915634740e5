/** The date of a test as typed: new ones need one, a table may have given none, or a day number. */
import type { When } from "../../core/trial/trial-record.ts";

export const typedTestDate = (when: When | null): string => (when !== null && "date" in when ? when.date : "");

/** What stood before stands on while nothing is typed over it. */
export function undatedOr(typed: string, before: { when: When | null } | undefined): When | null | "missing" {
  if (typed !== "") return { date: typed };
  return before && (before.when === null || "day" in before.when) ? before.when : "missing";
}
