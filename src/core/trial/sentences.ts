/** The one sentence of a comparison. What it says follows from the verdict; no face words it anew. */
import type { Compared } from "./analysis.ts";
import { unitWord } from "./analysis.ts";
import { effectDirection } from "./effect.ts";
import {
  distanceWords,
  limitsWords,
  numberWords,
  percentWords,
  rangeWords,
  sizeWords,
  turned,
} from "./effect-words.ts";
import type { Effect, Finding } from "./finding.ts";
import type { Question } from "./question.ts";
import { endsOf } from "./time-effect.ts";
import { reaches, verdictLevels } from "./verdict.ts";
import { sizeWords as soughtSize } from "./would-tell.ts";

/** What a sentence needs besides the comparison itself. */
export type Spoken = Compared & {
  wouldTell: Finding["wouldTell"];
  /** Comparisons that the p was adjusted for. */
  comparisons: number;
  /** At 90 %, for "alike". */
  narrow: Effect | null;
  /** Another layout or a longer exposure would tell, rather than more coupons. */
  otherwise: string | null;
};

/** The sentence of a comparison, by its verdict. */
export function sentenceOf(question: Question, row: Spoken): string {
  return raised(unraised(question, row));
}

function raised(sentence: string): string {
  return sentence.charAt(0).toUpperCase() + sentence.slice(1);
}

function unraised(question: Question, row: Spoken): string {
  switch (row.verdict) {
    case "shown":
      return shown(question, row);
    case "suggested":
      return suggested(question, row);
    case "not told apart":
      return notToldApart(question, row);
    case "equivalent within the margin":
      return equivalent(question, row);
    case "cannot be told":
      return cannotBeTold(question, row);
  }
}

/** The better of the two first, with the effect turned its way. */
function betterFirst(row: Spoken) {
  const { first, second, better, effect, n, units } = row;
  if (better === "first") return { a: first, b: second, effect, n, units };
  return {
    a: second,
    b: first,
    effect: effect && turned(effect),
    n: [n[1], n[0]] as const,
    units: [units[1], units[0]] as const,
  };
}

const ifSeparate = (row: Spoken): string => (row.layout.assumed ? " if each coupon was treated separately" : "");

function shown(question: Question, row: Spoken): string {
  const { a, b, effect, n, units } = betterFirst(row);
  const interval = effect && hasInterval(effect) ? ` (${intervalWords(effect)})` : "";
  const how = effect && (apartWords(question, row) ?? `${effectWords(question, effect)}${interval}.`);
  const chance = chanceClause(question, row);
  const counts = chance === null ? "" : ` With ${n[0]} and ${n[1]} ${unitWord(units)}: ${chance}.`;
  return `${a} beat ${b}${ifSeparate(row)}${how ? `: ${how}` : "."}${counts}${sizeClause(question, row)}`;
}

/** A bare bound is its own interval, and without limits there is none. */
function hasInterval({ value, lower, upper }: Effect): boolean {
  return value !== null && (lower !== null || upper !== null);
}

function effectWords(question: Question, effect: Effect): string {
  if (effect.value !== null) return sizeWords(question, effect, effect.value);
  const { moreIsBetter } = effectDirection(question, effect);
  const bound = moreIsBetter ? effect.lower : effect.upper;
  if (bound === null) return "how much, it cannot say";
  return `${moreIsBetter ? "at least" : "at most"} ${sizeWords(question, effect, bound)}`;
}

function intervalWords(effect: Effect): string {
  return `${percentWords(effect.confidence)} ${limitsWords(effect)}`;
}

/** Groups wholly apart without a fit: the bound of the looks, and what was seen. Never a percent. */
function apartWords(question: Question, row: Spoken): string | null {
  const { a, b, effect, units } = betterFirst(row);
  if (!effect || effect.value !== null || effect.lower === null || !/^(time|stroke) ratio$/.test(effect.name))
    return null;
  const [clean, rusted] = [endsOf(units[0]), endsOf(units[1])];
  if (rusted.right === null || clean.left <= rusted.right) return null;
  const bound = numberWords(effect.lower);
  const { unit } = question;
  if (effect.name === "stroke ratio")
    return `at least ${bound} times as many ${unit}. No ${a} had worn through by ${clean.left} ${unit}, every ${b} had by ${rusted.right}.`;
  return `at least ${bound} times later. No ${a} had rusted by day ${clean.left}, every ${b} had by day ${rusted.right}.`;
}

/** How rare this would be without any difference; null where no such number may be given. */
function chanceClause(question: Question, row: Spoken): string | null {
  const { pAdjusted, pAdjustedIsLowerBound, comparisons, drawnFloor } = row;
  if (pAdjusted === null || pAdjustedIsLowerBound || pAdjusted > 0.5) return null;
  if (!question.declared || row.standing === "exploratory") return null;
  const among = comparisons === 1 ? "" : `among the ${comparisons} comparisons `;
  const seldom =
    drawnFloor !== null && pAdjusted <= drawnFloor * (1 + 1e-9)
      ? `in fewer than one such trial in ${spaced(Math.round(1 / drawnFloor))}`
      : `in at most about one such trial in ${spaced(Math.floor(1 / pAdjusted + 1e-9))}`;
  return `had the treatments made no difference, a result this strong would turn up ${among}${seldom}`;
}

function spaced(count: number): string {
  return count < 10_000 ? String(count) : String(count).replace(/\B(?=(\d{3})+$)/g, " ");
}

/** Three sizes, by where the margin stands in the interval. */
function sizeClause(question: Question, row: Spoken): string {
  const { margin } = question;
  const effect = betterFirst(row).effect;
  if (margin === null || !effect || effect.name === "Cliff's delta") return "";
  const { neutral, moreIsBetter } = effectDirection(question, effect);
  const sign = moreIsBetter ? 1 : -1;
  const edge = neutral === 1 ? margin ** sign : sign * margin;
  const [near, far] = moreIsBetter ? [effect.lower, effect.upper] : [effect.upper, effect.lower];
  if (near !== null && sign * near >= sign * edge) return " The difference is by at least the margin.";
  const reachesEdge = far === null || sign * far >= sign * edge;
  return reachesEdge ? " How much is open: the interval holds differences smaller and larger than the margin." : "";
}

function suggested(question: Question, row: Spoken): string {
  const { a, b, effect } = betterFirst(row);
  const limits = effect && hasInterval(effect) ? `, ${rangeWords(effect)}` : "";
  const size = effect ? ` (${effectWords(question, effect)}${limits})` : "";
  const but = row.caps[0]?.reason ?? chanceClause(question, row);
  return `it looks as if ${a} beats ${b}${ifSeparate(row)}${size}${but ? `, but ${but}` : ""}. Do not build on it yet.`;
}

function notToldApart(question: Question, row: Spoken): string {
  const { a, b, effect } = betterFirst(row);
  const start = `this trial does not tell ${a} from ${b}.`;
  if (!effect || (effect.lower === null && effect.upper === null))
    return `${start} How much better either may be, it cannot say.`;
  const { neutral, moreIsBetter } = effectDirection(question, effect);
  const [better, worse] = moreIsBetter ? [effect.upper, effect.lower] : [effect.lower, effect.upper];
  // The interval of this pair alone may lie on one side, while all comparisons together tell nothing.
  const oneSided = worse !== null && worse > neutral === moreIsBetter && worse !== neutral;
  const off = (limit: number) => distanceWords(question, effect, limit);
  if (effect.name === "Cliff's delta" && better !== null && worse !== null)
    return `${start} ${raised(a)} may still be better in ${off(better)}, or in only ${off(worse)}.`;
  const up = better === null ? "better, how much better, it cannot say," : `up to ${off(better)} better`;
  if (oneSided) return `${start} ${raised(a)} may still be ${up} or not at all.`;
  const down = worse === null ? "worse, how much worse, it cannot say" : `${off(worse)} worse`;
  return `${start} ${raised(a)} may still be ${up} or ${down}.`;
}

function equivalent(question: Question, row: Spoken): string {
  const { a, b } = betterFirst(row);
  const narrow = row.narrow && (row.better === "first" ? row.narrow : turned(row.narrow));
  const margin = `the difference is less than ${marginWords(question, row)} either way`;
  const limits = narrow ? ` (${percentWords(narrow.confidence)} ${limitsWords(narrow)})` : "";
  const real =
    row.pAdjusted !== null && reaches(row.pAdjusted, verdictLevels.shown)
      ? " There is a real difference, but a smaller one than you care about."
      : "";
  return `${a} and ${b} are alike for your purpose${ifSeparate(row)}: ${margin}${limits}.${real}`;
}

function marginWords(question: Question, row: Spoken): string {
  const margin = numberWords(question.margin ?? 0);
  if (row.effect && effectDirection(question, row.effect).neutral === 1) return `a factor of ${margin}`;
  if (question.kind === "ordinal") return margin === "1" ? "1 class" : `${margin} classes`;
  if (question.kind === "binary") return `${numberWords(100 * (question.margin ?? 0))} percentage points`;
  return question.unit === "" ? margin : `${margin} ${question.unit}`;
}

function cannotBeTold(question: Question, row: Spoken): string {
  const reason = row.caps.find((cap) => cap.atMost === "cannot be told")?.reason ?? "";
  const would = wouldWords(question, row);
  return `about ${row.first} against ${row.second} this trial can say nothing, because ${reason}.${would === "" ? "" : ` ${would}`}`;
}

/** What would tell: so many of each, or something else than more coupons. */
export function wouldWords(question: Question, row: Pick<Spoken, "wouldTell" | "otherwise" | "layout">): string {
  if (row.otherwise !== null) return row.otherwise;
  const [usual, sure] = row.wouldTell ?? [];
  if (!usual || !sure) return "";
  if (usual.perTreatment === null)
    return `To find ${soughtSize(question)} is out of reach with 30 of each; a harsher or longer exposure, or a wider margin, would help.`;
  const what = row.layout.batch === null ? "coupons, each treated separately," : "batches";
  const second = sure.perTreatment === null ? "more than 30" : String(sure.perTreatment);
  return `To find ${soughtSize(question)}, ${usual.perTreatment} ${what} of each treatment would do in four trials of five, ${second} in nine of ten.`;
}
