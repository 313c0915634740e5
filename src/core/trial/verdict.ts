/** The verdict of one comparison: the first rule that applies. A cap never raises it. */
import type { Finding, Verdict } from "./finding.ts";

/** Why a comparison can get no more than this, in words that end a sentence after "because". */
export type Cap = {
  atMost: "suggested" | "cannot be told";
  reason: string;
  /** Speaks against "equivalent within the margin" too. */
  againstEquivalence: boolean;
};

/** p of exactly 0.05 or 0.20 counts as reached, whatever rounding left. */
const slack = 1e-9;
export const verdictLevels = { shown: 0.05, suggested: 0.2, equivalent: 0.05 } as const;

/** One of the five words, from adjusted p, equivalence, numbers of units and caps. */
export function verdictOf({
  n,
  pAdjusted,
  equivalence,
  caps,
}: Pick<Finding, "n" | "pAdjusted" | "equivalence"> & { caps: readonly Cap[] }): Verdict {
  if (caps.some((cap) => cap.atMost === "cannot be told")) return "cannot be told";
  const alike = equivalence !== null && reaches(equivalence.pAdjusted, verdictLevels.equivalent);
  if (alike && Math.min(...n) >= 3 && !caps.some((cap) => cap.againstEquivalence))
    return "equivalent within the margin";
  if (pAdjusted !== null && reaches(pAdjusted, verdictLevels.shown) && caps.length === 0) return "shown";
  if (pAdjusted !== null && reaches(pAdjusted, verdictLevels.suggested)) return "suggested";
  return "not told apart";
}

/** Whether a p is at or below a level. */
export function reaches(p: number, level: number): boolean {
  return p <= level + slack;
}

const ladder: readonly Verdict[] = ["cannot be told", "not told apart", "suggested", "shown"];

/** Whether the first verdict says less than the second; "equivalent" stands beside the ladder. */
export function saysLess(first: Verdict, second: Verdict): boolean {
  return ladder.includes(first) && ladder.includes(second) && ladder.indexOf(first) < ladder.indexOf(second);
}
