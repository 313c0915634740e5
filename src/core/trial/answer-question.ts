/**
 * From a question to its findings: verdict, effect and sentence for every comparison.
 *
 * The way: units of replication, who can be compared, exact or normal tests adjusted for their number, effects with intervals,
 * equivalence, caps, then what else the differences could come from and what hangs on deviations, then the sentence.
 */
import { zeroFailureBound } from "../statistics/zero-failure-bound.ts";
import { type Analysis, analysis, type Compared } from "./analysis.ts";
import { auditedVerdict } from "./audited-verdict.ts";
import type { Aliased } from "./confounding-audit.ts";
import { deviationInfluence, withoutDeviating } from "./deviation-influence.ts";
import { effectDirection, effectOf } from "./effect.ts";
import { percentWords } from "./effect-words.ts";
import type { AnsweredQuestion, Confounded, CouponPoint, Effect, Finding } from "./finding.ts";
import { orderTrend } from "./order-trend.ts";
import type { Question } from "./question.ts";
import { questionNotes, secondPassNotes } from "./question-notes.ts";
import { type Drawing, fullDrawing } from "./rearranged-sets.ts";
import { type Spoken, sentenceOf } from "./sentences.ts";
import { inspectionInterval } from "./unit-scores.ts";
import { reaches, verdictLevels } from "./verdict.ts";
import { isWearUnit } from "./wear-conditions.ts";
import { comparisonsDeclared, wouldTell } from "./would-tell.ts";

/** `drawing`: fewer rearrangements only while a plan is simulated. */
export function answerQuestion(question: Question, drawing: Drawing = fullDrawing): AnsweredQuestion {
  if (question.order !== undefined) return answerOfOrder(question, question.order, drawing);
  const whole = analysis(question, drawing);
  const lighter = withoutDeviating(question, whole.fits.family.units);
  const reduced = lighter && analysis(lighter, drawing);
  const judged = whole.rows.map((row) => judgedRow(question, row, reduced));
  const findings = judged.map((one) => findingOf(question, whole, one));
  return {
    ...asked(question),
    overall: whole.overall,
    findings,
    confounded: confoundedList(judged),
    notes: [...question.notes, ...secondPassNotes(question), ...questionNotes(question, whole, { findings, judged })],
  };
}

/** One test of the order and no comparisons: the coupons of treatments outside it are drawn, not compared. */
function answerOfOrder(question: Question, order: readonly string[], drawing: Drawing): AnsweredQuestion {
  const { trend, confounded } = orderTrend(question, order, drawing);
  const notes = [...question.notes, ...secondPassNotes(question)];
  return { ...asked(question), overall: null, findings: [], confounded, notes, trend };
}

function asked(question: Question) {
  const { response, kind, family, control, treatments, coupons, witnesses, unit } = question;
  const ofEach = treatments.map((treatment) => [
    treatment,
    coupons.filter((coupon) => coupon.treatment === treatment).length,
  ]);
  const points = coupons.map(couponPoint);
  return { response, kind, family, control, units: Object.fromEntries(ofEach), points, witnesses, unit };
}

type Judged = Compared & { aliased: Aliased[]; remarks: string[] };

/** The audit and the deviations add caps; a verdict never rises by them. */
function judgedRow(question: Question, row: Compared, reduced: Analysis | null): Judged {
  const influence = reduced ? deviationInfluence(question, row, reduced) : { cap: null, said: null };
  const audited = auditedVerdict(question, row, influence.cap ? [influence.cap] : []);
  return { ...row, ...audited, remarks: [...(influence.said ? [influence.said] : []), ...audited.remarks] };
}

function findingOf(question: Question, whole: Analysis, row: Judged): Finding {
  const spoken: Spoken = {
    ...row,
    wouldTell: wantsMore(row) ? wouldTell(question, whole.fits[row.step], row) : null,
    otherwise: otherwise(question, row),
    comparisons: comparisonsAdjusted(question, whole, row),
    narrow: effectAt90(question, whole, row),
  };
  return {
    first: row.first,
    second: row.second,
    n: row.n,
    effect: row.effect,
    p: row.p,
    pAdjusted: row.pAdjusted,
    pAdjustedIsLowerBound: row.pAdjustedIsLowerBound,
    pMin: row.pMin,
    method: row.method,
    margin: question.margin,
    equivalence: row.equivalence,
    verdict: row.verdict,
    sentence: sentenceOf(question, spoken),
    because: becauseOf(question, spoken, row.remarks),
    wouldTell: spoken.wouldTell,
  };
}

/** More units help where the verdict is low for want of them: not at an end of the scale, not where another layout is asked. */
function wantsMore(row: Judged): boolean {
  if (row.verdict === "shown" || row.verdict === "equivalent within the margin") return false;
  return (
    row.end === null && !row.aliased.some((one) => one.how === "fully" && one.circumstance !== row.layout.batch?.step)
  );
}

/** What would tell when more coupons would not. */
function otherwise(question: Question, row: Judged): string | null {
  if (row.verdict !== "cannot be told") return null;
  const full = row.aliased.find((one) => one.how === "fully" && one.circumstance !== row.layout.batch?.step);
  if (full) return `Another layout would tell, not more coupons: give both treatments every ${full.circumstance}.`;
  const times = row.units
    .flat()
    .flatMap((unit) => unit.coupons)
    .flatMap(({ datum }) => ("left" in datum ? [datum] : []));
  const unit = isWearUnit(question.unit) ? question.unit : "days";
  switch (row.end) {
    case null:
      return null;
    case "none rusted":
      return `A longer or harsher trial would tell: at least ${2 * Math.max(...times.map((time) => time.left))} ${unit}.`;
    case "all at once":
      return `An earlier first look would tell: well before ${Math.min(...times.map((time) => time.right ?? Number.POSITIVE_INFINITY))} ${unit}.`;
    case "all best":
      return "A harsher or longer test, or a finer scale, would tell.";
    case "all worst":
      return "A milder or shorter test, or a finer scale, would tell.";
  }
}

/** Those of its own step that were adjusted together. */
function comparisonsAdjusted(question: Question, { rows }: Analysis, { step }: Judged): number {
  const together = rows.filter((row) => row.step === step && row.standing === "in").length;
  return Math.max(1, together || comparisonsDeclared(question, { step }));
}

function effectAt90(question: Question, { fits }: Analysis, row: Judged) {
  if (row.verdict !== "equivalent within the margin") return null;
  return effectOf(question, fits[row.step], row.units, { pMin: row.pMin ?? 0, confidence: 0.9 });
}

/** Caps and notes in the order met. */
function becauseOf(question: Question, row: Spoken, remarks: readonly string[]): string[] {
  const disagrees = intervalDisagrees(question, row)
    ? [`the interval is for this pair alone; the verdict allows for all ${row.comparisons} comparisons`]
    : [];
  const short =
    row.effect !== null && hasLimit(row.effect) && row.effect.confidence < 0.95 - 1e-9
      ? [`with these units and ties the interval reaches only ${Number((100 * row.effect.confidence).toFixed(1))} %`]
      : [];
  return [...row.caps.map((cap) => cap.reason), ...remarks, ...endBounds(question, row), ...short, ...disagrees];
}

const hasLimit = ({ lower, upper }: Effect): boolean => lower !== null || upper !== null;

/** All stand at one end: what that end still says. "No rust on any" is a bound, not a zero. */
function endBounds(question: Question, { end, first, second, n, units }: Spoken): string[] {
  if (end === null) return [];
  const times = units
    .flat()
    .flatMap((unit) => unit.coupons)
    .flatMap((coupon) => ("left" in coupon.datum ? [inspectionInterval(coupon)] : []));
  const unit = isWearUnit(question.unit) ? question.unit : "days";
  if (end === "none rusted")
    return [`the times of both lie beyond ${Math.min(...times.map((time) => time.leftDays))} ${unit}`];
  if (end === "all at once")
    return [`the times of both lie at or below ${Math.max(...times.map((time) => time.rightDays ?? 0))} ${unit}`];
  const missing = end === "all best" ? "none fell short" : "none came out well";
  const could = end === "all best" ? "could fall short" : "could come out well";
  return [first, second].map((name, at) => {
    const bound = percentWords(zeroFailureBound({ trials: n[at]!, confidence: 0.95 }).upper);
    return `of ${n[at]} ${name} ${missing}: up to ${bound} of them ${could} (95 %)`;
  });
}

/** The interval excludes no difference and the verdict is below "shown", or the reverse. */
function intervalDisagrees(question: Question, row: Spoken): boolean {
  if (!row.effect || row.comparisons === 1 || row.verdict === "equivalent within the margin") return false;
  const { neutral } = effectDirection(question, row.effect);
  const { lower, upper } = row.effect;
  const excludes = (lower !== null && lower > neutral) || (upper !== null && upper < neutral);
  const told = row.pAdjusted !== null && reaches(row.pAdjusted, verdictLevels.shown);
  return excludes !== told;
}

function confoundedList(rows: readonly Judged[]): Confounded[] {
  return rows.flatMap((row) =>
    row.aliased.map(({ circumstance, how }) => ({ circumstance, treatments: [row.first, row.second], how })),
  );
}

function couponPoint(coupon: Question["coupons"][number]): CouponPoint {
  const { coupon: name, treatment, block, deviation, datum } = coupon;
  if ("value" in datum) return { coupon: name, treatment, block, deviation, datum: { value: datum.value } };
  const { leftDays, rightDays } = inspectionInterval(coupon);
  return { coupon: name, treatment, block, deviation, datum: { left: leftDays, right: rightDays } };
}
