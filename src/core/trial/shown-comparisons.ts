/**
 * Which comparisons end as "shown", and nothing else of the answer: what the simulation of a plan counts. The tests, the caps, the
 * equivalence and the audit are those of `answerQuestion`; effects, intervals and sentences are left out, as no "shown" hangs on them.
 */
import { designCaps, type Placed, pairEquivalence, placed } from "./analysis.ts";
import { answerQuestion } from "./answer-question.ts";
import { auditedVerdict } from "./audited-verdict.ts";
import { hopelessByLayout } from "./comparable-treatments.ts";
import { type ComparisonRow, type ComparisonRows, comparisonRows } from "./comparison-rows.ts";
import { confoundingOf } from "./confounding-audit.ts";
import { adjustedEquivalence } from "./equivalence.ts";
import type { Finding } from "./finding.ts";
import { fittedModels } from "./fitted-models.ts";
import { orderIsShown } from "./order-trend.ts";
import type { Question } from "./question.ts";
import { type Drawing, smallestPairP } from "./rearranged-sets.ts";
import { rowsToldApart } from "./told-apart.ts";
import { type TrialLayout, trialLayout } from "./units-of-replication.ts";
import { reaches, verdictLevels } from "./verdict.ts";

export type ShownComparison = Pick<Finding, "first" | "second">;
type Draws = Pick<Drawing, "draws">;

/** What becomes of a row that is told apart, where ties do not hinder it: "shown"; never; or what the audit of this trial says. */
type Standing = "shown" | "never" | "audited";

/** What the layout alone says; the same for every trial in which no coupon is missing. */
export type KnownLayout = {
  layout: TrialLayout;
  plan: ComparisonRows;
  /** How a row stands by layout and conduct, once it was asked. */
  standings: Map<ComparisonRow, Standing>;
};

/** Units and standing of every comparison, for many trials of one layout. */
export function knownLayout(question: Question): KnownLayout {
  const layout = trialLayout(question);
  return { layout, plan: comparisonRows(question, hopelessByLayout(question, layout, null)), standings: new Map() };
}

/** The ends of a declared order, the last one first: what stands for its trend. */
export function orderEnds(order: readonly string[]): ShownComparison {
  return { first: order.at(-1)!, second: order[0]! };
}

/** The pairs that `answerQuestion` would call "shown" with as many draws; of a declared order its two ends, when the trend is. `known`: of a question with the same coupons. */
export function shownComparisons(
  question: Question,
  draws: Draws,
  known: KnownLayout = knownLayout(question),
): ShownComparison[] {
  if (question.order !== undefined)
    return orderIsShown(question, question.order, draws) ? [orderEnds(question.order)] : [];
  const wholeAnswer = question.kind === "continuous" || question.coupons.some((coupon) => coupon.deviation !== null);
  if (wholeAnswer) return answerQuestion(question, draws).findings.filter((finding) => finding.verdict === "shown");
  const { layout, plan } = known;
  const told = rowsToldApart(question, layout, plan, draws);
  if (told.length === 0) return [];
  const equivalence = familyEquivalence(question, layout, plan, told);
  return told.filter((row) => isShown(question, known, row, equivalence.get(row) ?? null));
}

function isShown(
  question: Question,
  { layout, standings }: KnownLayout,
  row: ComparisonRow,
  equivalence: Finding["equivalence"],
): boolean {
  const standing = standings.get(row) ?? standingOf(question, layout, row);
  standings.set(row, standing);
  if (standing === "never") return false;
  const pMin = smallestPairP(question, layout, row.first, row.second);
  // Groups at one end of what can be seen are never told apart, so that rule need not be asked again.
  if (standing === "shown" && equivalence === null) return reaches(pMin, verdictLevels.shown);
  const place = placed(question, layout, { ...row, pMin, doubts: [] });
  const p = { p: verdictLevels.shown, pAdjusted: verdictLevels.shown };
  const caps = capsBehindGate(question, place);
  return auditedVerdict(question, { ...place, ...p, equivalence, caps }, []).verdict === "shown";
}

function standingOf(question: Question, layout: TrialLayout, row: ComparisonRow): Standing {
  const place = { ...placed(question, layout, { ...row, pMin: 0, doubts: [] }), end: null };
  if (capsBehindGate(question, place).length > 0) return "never";
  return confoundingOf(question, place).length > 0 ? "audited" : "shown";
}

/** Told apart in the second step only behind an open gate. */
function capsBehindGate(question: Question, place: Placed) {
  return designCaps(question, place, { gateOpen: true, errorDf: null });
}

/**
 * Adjusted over the whole family, as in the answer; empty where no row that was told apart can pass: an adjusted p is never below the
 * pair's own, and a ratio beyond the margin is not within it.
 */
function familyEquivalence(
  question: Question,
  layout: TrialLayout,
  { rows }: ComparisonRows,
  told: readonly ComparisonRow[],
) {
  const none = new Map<ComparisonRow, Finding["equivalence"]>();
  if (question.margin === null) return none;
  const fits = fittedModels(question, layout);
  const { time } = fits.family;
  const edge = Math.log(question.margin);
  const beyond = ({ first, second }: ComparisonRow) =>
    time !== null && Math.abs(time.logMedian(first) - time.logMedian(second)) >= edge;
  if (question.kind === "time" && (time === null || told.every(beyond))) return none;
  const family = rows.filter((row) => row.step === "family");
  const p = family.map((row) =>
    pairEquivalence(question, fits.family, placed(question, layout, { ...row, pMin: null, doubts: [] })),
  );
  const adjusted = adjustedEquivalence(p);
  return new Map(family.map((row, at) => [row, adjusted[at] ?? null]));
}
