/** A pair tested again within the levels of a circumstance that is tied to it in part. */
import { tTwoSided } from "../numeric/t-distribution.ts";
import { rearrangementTest, smallestRearrangementP } from "../statistics/rearrangement-test.ts";
import { treatmentBlockFit } from "../statistics/treatment-block-fit.ts";
import type { Compared } from "./analysis.ts";
import { errorDfFor, largestTellingP } from "./comparable-treatments.ts";
import type { Verdict } from "./finding.ts";
import type { Question } from "./question.ts";
import { unitScores } from "./unit-scores.ts";
import type { Unit } from "./units-of-replication.ts";
import { placedValues } from "./value-effect.ts";
import { type Cap, reaches, saysLess, verdictLevels, verdictOf } from "./verdict.ts";

type Retested = Pick<
  Compared,
  "first" | "second" | "units" | "n" | "p" | "pAdjusted" | "equivalence" | "caps" | "verdict"
>;

/**
 * `levels`: of the units of the first, then of the second treatment. The lower verdict, with the cap that lowers it where one does;
 * null: it does not fall.
 */
export function retestedVerdict(
  question: Question,
  row: Retested,
  levels: readonly string[],
): { verdict: Verdict; caps: Cap[] } | null {
  if (row.p === null) return null;
  const { p, caps } = withinLevels(question, row, levels);
  const verdict = verdictOf({ ...row, pAdjusted: Math.max(row.pAdjusted ?? 1, p), caps: [...row.caps, ...caps] });
  return saysLess(verdict, row.verdict) ? { verdict, caps } : null;
}

function withinLevels(question: Question, row: Retested, levels: readonly string[]): { p: number; caps: Cap[] } {
  const units = row.units.flat().map((unit, at) => ({ ...unit, block: JSON.stringify([unit.block, levels[at]]) }));
  const t = question.kind === "continuous" ? tWithin(question, row, units) : null;
  if (t !== null) return { p: t, caps: [] };
  const scores = unitScores(question, row.units.flat(), [row.first, row.second]).map((one, at) => {
    return { ...one, block: units[at]!.block };
  });
  const pMin = smallestRearrangementP(scores);
  return { p: rearrangementTest(scores, { statistic: "pairs", seed: question.seed }).p, caps: pMinCaps(pMin) };
}

/** Of measured values, by what the two scatter within the levels; null: nothing scatters there, or too little is left. */
function tWithin(question: Question, { first, second }: Retested, units: readonly Unit[]): number | null {
  const fit = treatmentBlockFit(placedValues(question, units));
  const difference = fit.difference(first, second);
  if (fit.errorDf < errorDfFor.anything || !difference || !(fit.meanSquare! > 0)) return null;
  return tTwoSided(difference.value / Math.sqrt(fit.meanSquare! * difference.variance), fit.errorDf);
}

function pMinCaps(pMin: number): Cap[] {
  if (reaches(pMin, verdictLevels.shown)) return [];
  const reason = `within its levels even the clearest result would come by chance once in ${Math.round(1 / pMin)} trials`;
  return [
    { atMost: reaches(pMin, largestTellingP) ? "suggested" : "cannot be told", reason, againstEquivalence: false },
  ];
}
