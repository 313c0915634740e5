/** Every comparison of a question with its tests, effect and the caps that follow from the design; before audit and deviations. */
import { mean } from "../statistics/moments.ts";
import { type ErrorDf, errorDfFor, hopelessByLayout, largestTellingP, pairUnits } from "./comparable-treatments.ts";
import { comparisonRows } from "./comparison-rows.ts";
import { effectDirection, effectOf } from "./effect.ts";
import { adjustedEquivalence, equivalenceP } from "./equivalence.ts";
import { exactTests, type Tested, type TestedRow } from "./exact-tests.ts";
import type { Effect, Finding } from "./finding.ts";
import { type Fitted, type FittedModels, fittedModels } from "./fitted-models.ts";
import { normalTests } from "./normal-tests.ts";
import type { Question } from "./question.ts";
import { comparedPairs, type Drawing } from "./rearranged-sets.ts";
import type { SecondPass } from "./second-pass.ts";
import { commonEnd, unitScores } from "./unit-scores.ts";
import { type PairLayout, type TrialLayout, trialLayout, type Unit } from "./units-of-replication.ts";
import { type Cap, reaches, verdictLevels, verdictOf } from "./verdict.ts";
import { isWearUnit } from "./wear-conditions.ts";

export type Compared = Omit<TestedRow, "p"> &
  Pick<Finding, "n" | "effect" | "equivalence" | "verdict" | "p"> & {
    units: readonly [readonly Unit[], readonly Unit[]];
    layout: PairLayout;
    end: ReturnType<typeof commonEnd>;
    /** Which of the two stands better, as far as it can be seen. */
    better: "first" | "second";
    caps: Cap[];
  };

export type Analysis = {
  rows: Compared[];
  overall: Tested["overall"];
  fits: FittedModels;
};

/** Tests, effects and design caps of every comparison, in the order of the answer. */
export function analysis(question: Question, drawing: Drawing): Analysis {
  const layout = trialLayout(question);
  const fits = fittedModels(question, layout);
  const errorDf = errorDfOf(question, fits);
  const plan = comparisonRows(question, hopelessByLayout(question, layout, errorDf));
  const tested =
    errorDf === null
      ? exactTests(question, layout, plan, drawing)
      : normalTests(question, layout, { plan, fits }, drawing);
  const rows = tested.rows.map((row) => measured(question, layout, fits[row.step], row));
  const equivalence = adjustedEquivalence(rows.map((row) => pairEquivalence(question, fits[row.step], row)));
  const gateOpen = gateIsOpen(tested.rows);
  const judged = rows.map((row, at) => {
    const caps = designCaps(question, row, { gateOpen, errorDf: errorDf?.(row.first, row.second) ?? null });
    const known = { ...row, equivalence: equivalence[at]!, caps };
    return { ...known, verdict: verdictOf(known) };
  });
  return { rows: judged, overall: tested.overall, fits };
}

/** Degrees of freedom by which a pair of measured values is judged; null: the exact tests decide, since nothing scatters or nothing was measured. */
function errorDfOf({ treatments }: Question, { family: { value } }: FittedModels): ErrorDf | null {
  const judged = value && comparedPairs(treatments, "pairs").every((pair) => value(...pair).fit !== null);
  return judged ? (first, second) => value(first, second).errorDf : null;
}

type Measured = Omit<Compared, "equivalence" | "caps" | "verdict">;
/** What the layout, the ties and the ends of the scale say of a comparison, before any effect. */
export type Placed = Pick<
  Measured,
  "first" | "second" | "step" | "standing" | "pMin" | "doubts" | "n" | "layout" | "end"
> & {
  units: [Unit[], Unit[]];
};

/** The units of a comparison, and whether all stand at one end. */
export function placed(
  question: Question,
  layout: TrialLayout,
  row: Pick<TestedRow, "first" | "second" | "step" | "standing" | "pMin" | "doubts">,
): Placed {
  const units = pairUnits(question, layout, row.first, row.second);
  const n: [number, number] = [units[0].length, units[1].length];
  // With one unit of a treatment the want of units is the reason, whatever was seen.
  const end = Math.min(...n) > 1 ? commonEnd(question, units.flat()) : null;
  const { first, second, step, standing, pMin, doubts } = row;
  return { first, second, step, standing, pMin, doubts, units, n, layout: layout.pair(first, second), end };
}

function measured(question: Question, layout: TrialLayout, fitted: Fitted, row: TestedRow): Measured {
  const { units, n, end, ...place } = placed(question, layout, row);
  const known = { ...row, ...place, units, n, end };
  if (Math.min(...n) <= 1) return { ...known, p: null, pAdjusted: null, pMin: 1, effect: null, better: "first" };
  if (end !== null) return { ...known, p: null, pAdjusted: null, effect: null, better: "first" };
  const effect = effectOf(question, fitted, units, { pMin: row.pMin ?? 0, confidence: 0.95 });
  return { ...known, effect, better: betterOf(question, effect, units) };
}

function betterOf(question: Question, effect: Effect | null, units: [Unit[], Unit[]]): "first" | "second" {
  if (effect) {
    const { neutral, moreIsBetter } = effectDirection(question, effect);
    const seen = effect.value ?? effect.lower ?? effect.upper ?? neutral;
    if (seen !== neutral) return seen > neutral === moreIsBetter ? "first" : "second";
  }
  const scores = unitScores(question, units.flat(), [units[0][0]!.treatment, units[1][0]!.treatment]);
  const [first, second] = [0, 1].map((group) =>
    mean(scores.filter((one) => one.group === group).map((one) => one.score)),
  );
  // Scores of times are high for the first to rust.
  const higherIsBetter = question.kind !== "time" && (question.kind === "binary" || question.better === "higher");
  return first! > second! === higherIsBetter ? "first" : "second";
}

/** null: not asked of this comparison. */
export function pairEquivalence(
  question: Question,
  fitted: Fitted,
  row: Pick<Placed, "step" | "standing" | "end"> & Pick<Compared, "units">,
): number | null {
  if (row.step !== "family" || row.standing !== "in" || !question.declared || row.end !== null) return null;
  return equivalenceP(question, fitted, row.units);
}

/** The second step may show something only when every comparison of the family with the control is told apart. */
function gateIsOpen(rows: readonly TestedRow[]): boolean {
  const family = rows.filter((row) => row.step === "family" && row.standing === "in");
  return (
    family.length > 0 && family.every((row) => row.pAdjusted !== null && reaches(row.pAdjusted, verdictLevels.shown))
  );
}

/** A comparison as far as caps of the design look at it. */
export type Design = Omit<Placed, "units"> & Pick<Compared, "units">;

/** What the design, the ties and the conduct of the trial allow at most, in the order of the rules. */
export function designCaps(
  question: Question,
  row: Design,
  { gateOpen, errorDf }: { gateOpen: boolean; errorDf: number | null },
): Cap[] {
  const nothing = nothingToTell(question, row, errorDf);
  if (nothing.length > 0)
    return nothing.map((reason) => ({ atMost: "cannot be told", reason, againstEquivalence: true }));
  const [first, second] = row.n;
  const suggested = (holds: boolean, reason: string, againstEquivalence = false): Cap[] =>
    holds ? [{ atMost: "suggested", reason, againstEquivalence }] : [];
  return [
    ...suggested(!question.declared, "the question was not declared before the first look"),
    ...suggested(
      row.standing === "exploratory",
      `the layout took one of the two out of the family, so this comparison is exploratory`,
    ),
    ...suggested(
      row.step === "second step" && !gateOpen,
      "finishes are compared with each other only after each was told apart from the control, and not each was",
    ),
    ...suggested(
      Math.min(first, second) === 2,
      `there are only two ${unitWord(row.units)} of ${first === 2 ? row.first : row.second}`,
    ),
    ...suggested(
      row.pMin !== null && errorDf === null && !reaches(row.pMin, verdictLevels.shown),
      `even the clearest result with ${countWords(row)} would come by chance once in ${onceIn(row.pMin ?? 1)} trials`,
    ),
    ...suggested(
      errorDf !== null && errorDf < errorDfFor.shown,
      `the scatter is known from only ${errorDf} degrees of freedom`,
    ),
    ...row.doubts.flatMap((doubt) => suggested(true, doubt)),
    ...suggested(
      row.layout.batch?.case === "one against none",
      row.layout.batch === null ? "" : oneBatchReason(row.layout.batch),
      true,
    ),
    ...conductCaps(question),
  ];
}

/** A second blind pass that agrees less than this with the first does not show what it is about. */
const leastKappa = 0.4;

/** How the trial was carried out: by lot, blind, and judged alike twice. */
export function conductCaps({ randomised, blind, secondPass, photoPass }: Question): Cap[] {
  const suggested = (holds: boolean, reason: string): Cap[] =>
    holds ? [{ atMost: "suggested", reason, againstEquivalence: true }] : [];
  const poorly = (pass: SecondPass | undefined, what: string): Cap[] => {
    const kappa = pass?.kappa ?? null;
    return kappa === null ? [] : suggested(kappa < leastKappa, `${what} (quadratic kappa ${kappa.toFixed(2)})`);
  };
  return [
    ...suggested(!randomised, "the coupons were not allotted by lot"),
    ...suggested(!blind, "it was judged with the treatment known"),
    ...poorly(secondPass, "a second blind pass agreed poorly with the first"),
    ...poorly(photoPass, "blind gradings of the photographs agreed poorly with the measured areas"),
  ];
}

/** A plain table calls every step in which treatments differ "batch". */
function oneBatchReason({ treatment, step }: NonNullable<PairLayout["batch"]>): string {
  const how = step === "batch" ? "is of one batch" : `went through ${step} in one go`;
  return `every ${treatment} ${how}: it holds in this one batch`;
}

/** Reasons why nothing at all can be said; empty: something can. */
function nothingToTell(question: Question, row: Design, errorDf: number | null): string[] {
  const [first, second] = row.n;
  const { batch } = row.layout;
  if (batch?.case === "each has one")
    return [`every ${row.first} went through one ${batch.step} and every ${row.second} through another`];
  if (Math.min(first, second) <= 1) {
    const alone = first <= 1 ? row.first : row.second;
    const units = row.units[first <= 1 ? 0 : 1];
    if (units.length === 0) return [`no coupon of ${alone} was seen`];
    return [
      units[0]!.coupons.length === 1
        ? `there is one coupon of ${alone}`
        : `all coupons of ${alone} are one unit: they were treated together`,
    ];
  }
  if (row.end !== null) return [endReason(question, row.end, row.units.flat())];
  if (errorDf !== null)
    return errorDf < errorDfFor.anything ? [`the scatter is known from only ${errorDf} degrees of freedom`] : [];
  const pMin = row.pMin ?? 1;
  if (pMin > 1 - 1e-9) return [`all ${row.first} and ${row.second} came out the same, as far as this trial can see`];
  if (row.standing !== "out" && reaches(pMin, largestTellingP)) return [];
  return [`even the clearest result with ${countWords(row)} would come by chance once in ${onceIn(pMin)} trials`];
}

function onceIn(pMin: number): number {
  return Math.round(1 / pMin);
}

function countWords({ n: [first, second] }: Pick<Finding, "n">): string {
  return first === second ? `${first} each` : `${first} and ${second}`;
}

/** "coupons", or "units" where several coupons make one. */
export function unitWord(units: readonly [readonly Unit[], readonly Unit[]]): string {
  return units.flat().every((unit) => unit.coupons.length === 1) ? "coupons" : "units";
}

/** Why nothing can be told where all stand at one end, in words that follow "because". */
export function endReason(question: Question, end: NonNullable<Measured["end"]>, units: readonly Unit[]): string {
  const times = units.flatMap((unit) => unit.coupons).flatMap(({ datum }) => ("left" in datum ? [datum] : []));
  const worn = isWearUnit(question.unit);
  switch (end) {
    case "none rusted": {
      const last = Math.min(...times.map((time) => time.left));
      return worn
        ? `no coupon of either wore through in ${last} ${question.unit}`
        : `no coupon of either rusted in ${weeks(last)}`;
    }
    case "all at once":
      return worn ? "all wore through before the first check" : "all rusted before the first look";
    case "all best":
      return question.kind === "area"
        ? "no rust could be seen on any coupon of either"
        : "every coupon of both came out at the best end";
    case "all worst":
      return "every coupon of both came out at the worst end";
  }
}

function weeks(days: number): string {
  if (days < 14) return days === 1 ? "1 day" : `${days} days`;
  const count = Math.floor(days / 7);
  return `${count} weeks`;
}
