/** A pair tested again within the levels of a circumstance that is tied to it in part. */
import { rearrangementTest, smallestRearrangementP } from "../statistics/rearrangement-test.ts";
import type { Compared } from "./analysis.ts";
import type { Verdict } from "./finding.ts";
import type { Question } from "./question.ts";
import { unitScores } from "./unit-scores.ts";
import { type Cap, reaches, saysLess, verdictLevels, verdictOf } from "./verdict.ts";

type Retested = Pick<
  Compared,
  "first" | "second" | "units" | "n" | "p" | "pAdjusted" | "equivalence" | "caps" | "verdict"
>;

/** `levels`: of the units of the first, then of the second treatment. The lower verdict; null: it does not fall. */
export function retestedVerdict(question: Question, row: Retested, levels: readonly string[]): Verdict | null {
  if (row.p === null) return null;
  const scores = unitScores(question, row.units.flat(), [row.first, row.second]).map((one, at) => ({
    ...one,
    block: JSON.stringify([one.block, levels[at]]),
  }));
  const { p } = rearrangementTest(scores, { statistic: "pairs", seed: question.seed });
  const tooFew: Cap[] = reaches(smallestRearrangementP(scores), verdictLevels.shown)
    ? []
    : [{ atMost: "suggested", reason: "", againstEquivalence: false }];
  const again = verdictOf({ ...row, pAdjusted: Math.max(row.pAdjusted ?? 1, p), caps: [...row.caps, ...tooFew] });
  return saysLess(again, row.verdict) ? again : null;
}
