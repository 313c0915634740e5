/** What figures and findings say in words; English only for now, kept apart from the drawing. */
import type { ExposureClimate } from "../../core/climate/exposure-climate.ts";
import { wetAbove } from "../../core/climate/time-of-wetness.ts";
import type {
  AnsweredQuestion,
  Confounded,
  CouponPoint,
  Effect,
  Finding,
  ResponseKind,
  Trend,
  Verdict,
} from "../../core/trial/finding.ts";
import { scaleTitles } from "../../core/trial/scale-ends.ts";
import { isPercentLook, type Look, type Observed } from "../../core/trial/trial-record.ts";
import { isWearUnit } from "../../core/trial/wear-conditions.ts";
import { effectText, percentText, pText, valueText } from "./number-text.ts";

export const figureText = {
  chance: {
    axis: "Coupons of each treatment",
    lines: { one: "one better", all: "all better" },
    /** One finish alone: there is nothing to tell it from. */
    alone: "shown",
  },
  keptCurve: {
    title: (each: number) =>
      `Chance to show the difference, by coupons of each treatment, as simulated; the plan has ${each} of each`,
    caption: "How often it was shown, with one Monte Carlo standard error",
    each: "Coupons of each",
    planned: (each: number) => `${each} (this plan)`,
    one: "If one is better",
    all: "Each, if all are better",
    alone: "Shown",
    trials: "Invented trials",
  },
  deviationStar: "* touched by a deviation",
  noDifference: "no difference",
  margin: "shaded: too small to matter, as declared",
  witnesses: "bare witnesses (not compared)",
  better: (name: string) => `${name} better`,
  noEffect: "No size of a difference can be given here.",
  units: (first: number, second: number) => `n ${first} and ${second}`,
  details: "What this rests on, and what it leaves open",
  restsOn: "What this rests on",
  confusedWith: "What it could be confused with",
  cannotExclude: "What the data cannot exclude",
  wouldSettle: "What would settle it",
  notConfused: "Nothing that was recorded runs along with these two treatments.",
  orderNotConfused: "Nothing that was recorded runs along with this order.",
  method: "Method",
  why: "why?",
  notes: "Said once for all of these",
  exploratory: "Not declared before the first look: exploratory, never more than “suggested”.",
  declaredOrder: (n: readonly number[]) => `one test of the declared order, n ${n.join(", ")}`,
  forTheReader: "For the reader: other tests and checks",
  decidesNothing: "Computed for the reader; they decide nothing, so that no test can be chosen because it pleases.",
  pair: (first: string, second: string) => `${first} against ${second}`,
  overall: (p: number, method: string) =>
    `All treatments together: p ${pText(p)} (${method}). Information only, no verdict.`,
  noComparison: "No comparison can be made yet.",
  allCoupons: "Every coupon",
  formula: "Formula",
  source: "Source",
  holds: "Holds",
  status: "Status",
  wetHours: "wet hours",
  dewNights: "dew",
  dayOutdoors: (day: number, wet: string, unknown: string) => `Day ${day}: wet for ${wet}, unknown for ${unknown}`,
  nightWithDew: (day: number, dew: string) => `Night after day ${day}: dew on the steel for ${dew}`,
  air: ({ hours, wetHours, dewHours, dewNights, unknownHours }: ExposureClimate["whole"]) =>
    [
      `Wet for ${whole(wetHours)} of ${whole(hours)} hours`,
      dewNights === 0
        ? "no dew on the steel"
        : `dew on the steel for ${whole(dewHours)} hours in ${dewNights} ${dewNights === 1 ? "night" : "nights"}`,
      unknownHours === 0 ? "no hour unknown." : `${whole(unknownHours)} hours unknown.`,
    ].join("; "),
  airNote: (thicknessMm: number) =>
    `Bars: hours wet of each day, that is above ${wetAbove.rhPercent} % humidity and above ${wetAbove.tempC} °C. Hatched: hours that nobody knows. Dots: nights with dew on ${valueText(thicknessMm)} mm steel, reckoned as under a roof (a clear night sky brings more).`,
} as const;

/** The numbers of a declared order: its p, and the effect from its first to its last. */
export function trendText({ p, pMin, effect, order }: Trend): string[] {
  return [
    ...(p === null ? [] : [`p ${pText(p)}, two-sided, for the whole order`]),
    ...(pMin === null ? [] : [`the smallest p that this layout and these ties allow is ${pText(pMin)}`]),
    ...(effect === null
      ? []
      : [
          `${order.at(-1)} against ${order[0]}: ${effect.name} ${intervalText(effect)} (${confidenceText(effect.confidence)})`,
        ]),
  ];
}

/** A few hours of dew must not read as none. */
const whole = (hours: number): string => valueText(hours < 10 ? Math.round(hours * 10) / 10 : Math.round(hours));

/** Each word with what it stands for, for the legend. */
export const verdictMeaning: Record<Verdict, string> = {
  shown: "chance alone would rarely give so clear a result",
  suggested: "it looks so, but do not build on it yet",
  "not told apart": "this trial does not tell them apart, which is not “the same”",
  "equivalent within the margin": "alike for your purpose, by a test of its own",
  "cannot be told": "this trial can say nothing about it",
};

export const axisTitle: Record<ResponseKind, (unit: string) => string> = {
  time: (unit) => (isWearUnit(unit) ? `${unit} to breakthrough` : `${unit || "days"} to first rust`),
  area: () => "rusted area, % of the face, tenfold steps",
  ordinal: () => "class, the better to the right",
  continuous: (unit) => unit,
  binary: () => "passed",
};

/** One coupon's datum in words, for those who cannot see the drawing. */
export function pointText({ coupon, datum, deviation }: CouponPoint, kind: ResponseKind, unit: string): string {
  return `${coupon}: ${datumText(datum, kind, unit)}${deviation === null ? "" : ` (${deviation})`}`;
}

function datumText(datum: CouponPoint["datum"], kind: ResponseKind, unit: string): string {
  if ("value" in datum) {
    if (kind === "area") return `${percentText(datum.value)} %`;
    if (kind === "binary") return datum.value === 1 ? "yes" : "no";
    return kind === "ordinal" ? `class ${valueText(datum.value)}` : `${valueText(datum.value)} ${unit}`.trim();
  }
  const { left, right } = datum;
  if (right === null) return `not yet at ${valueText(left)} ${unit}`;
  if (left === right) return `${valueText(left)} ${unit}`;
  return left === 0 ? `by ${valueText(right)} ${unit}` : `${valueText(left)} to ${valueText(right)} ${unit}`;
}

/** "time ratio 3.2 (95 %: 1.4 to 7.5)". */
export function effectWithInterval(effect: Effect): string {
  const value = effect.value === null ? "" : ` ${effectText(effect.value)}`;
  return `${effect.name}${value} (${confidenceText(effect.confidence)}: ${intervalText(effect)})`;
}

export function intervalText({ lower, upper }: Pick<Effect, "lower" | "upper">): string {
  if (lower === null && upper === null) return "no limit either way";
  if (upper === null) return `${effectText(lower!)} or more, no upper limit`;
  if (lower === null) return `${effectText(upper)} or less, no lower limit`;
  return `${effectText(lower)} to ${effectText(upper)}`;
}

const confidenceText = (confidence: number) => `${valueText(Number((confidence * 100).toFixed(1)))} %`;

export function unitsText({ first, second, n }: Finding): string {
  return `n counts what was treated separately: ${n[0]} of ${first}, ${n[1]} of ${second}.`;
}

/** The chances, as far as there are any. */
export function chanceText(finding: Finding): string {
  const parts = [
    finding.p === null ? "" : `p of this pair alone ${pText(finding.p)}`,
    finding.pAdjusted === null
      ? ""
      : `allowing for all comparisons ${finding.pAdjustedIsLowerBound ? "at least " : ""}${pText(finding.pAdjusted)}`,
    finding.pMin === null ? "" : `smallest this layout can reach ${pText(finding.pMin)}`,
    finding.equivalence === null ? "" : `equivalence p ${pText(finding.equivalence.pAdjusted)}`,
  ].filter((part) => part !== "");
  return parts.length === 0 ? "" : `Chance: ${parts.join("; ")}.`;
}

export function cannotExcludeText(finding: Finding): string {
  const { effect, first, second } = finding;
  if (!effect) return "Anything: no interval can be given.";
  if (effect.lower === null && effect.upper === null)
    return `Any size, for ${first} or for ${second}: the interval has no limit either way.`;
  const within = `For ${first} against ${second} every ${effect.name} of ${intervalText(effect)} fits these coupons`;
  return `${within} (${confidenceText(effect.confidence)}, this pair alone).`;
}

/** Planned sizes that would tell, from the plan's own simulation; null: nobody computed them. */
export function wouldTellText(wouldTell: Finding["wouldTell"]): string[] {
  return (wouldTell ?? []).map(({ power, perTreatment }) =>
    perTreatment === null
      ? `No number of coupons that was tried would tell with a chance of ${chanceInTen(power)}.`
      : `${perTreatment} of each, treated separately, would tell with a chance of ${chanceInTen(power)}.`,
  );
}

/** How this trial was looked at: the next one that is counted on is looked at alike. null: no looks by days. */
export function looksOfNextText({
  kind,
  unit,
  points,
}: Pick<AnsweredQuestion, "kind" | "unit" | "points">): string | null {
  if (kind !== "time" || unit !== "days") return null;
  const seen = points.flatMap(({ datum }) => ("left" in datum ? [datum.left, datum.right ?? 0] : []));
  const looks = [...new Set(seen)].filter((day) => day > 0);
  if (looks.length === 0) return null;
  const weeks = Math.ceil(Math.max(...looks) / 7);
  return `Counted on are looks as in this trial: ${looks.length} ${looks.length === 1 ? "look" : "looks"} in ${weeks} ${weeks === 1 ? "week" : "weeks"}.`;
}

const chanceInTen = (power: number) => `${valueText(Number((power * 10).toFixed(1)))} in 10`;

const howMuch: Record<Confounded["how"], string> = {
  fully: "runs wholly along with the treatment: nothing can be told apart from it",
  heavily: "runs for the most part along with the treatment",
  partly: "runs partly along with the treatment",
};

export const confoundedText = ({ circumstance, how, treatments }: Confounded) =>
  `${circumstance} (${treatments.join(", ")}): ${howMuch[how]}.`;

/** "3 comparisons: 1 shown, 2 not told apart." */
export function verdictCount(findings: readonly Finding[]): string {
  const counts = new Map<Verdict, number>();
  for (const { verdict } of findings) counts.set(verdict, (counts.get(verdict) ?? 0) + 1);
  const list = [...counts].map(([verdict, count]) => `${count} ${verdict}`).join(", ");
  return `${findings.length} ${findings.length === 1 ? "comparison" : "comparisons"}: ${list}.`;
}

const dayAndMonth = new Intl.DateTimeFormat("en", { day: "numeric", month: "short", timeZone: "UTC" });

/** A calendar date without its year, never shifted by a time zone: "3 Mar". */
export function shortDate(date: string): string {
  const parts = dayAndMonth.formatToParts(new Date(`${date}T00:00:00Z`));
  const part = (type: string) => parts.find((one) => one.type === type)?.value ?? "";
  return `${part("day")} ${part("month")}`;
}

export const looksText = {
  coupon: "Coupon",
  how: { photo: "measured on a photograph", eye: "judged by eye", table: "from a table" },
} as const;

export const takenDownText = (reason: string) => (reason === "lost" ? "lost" : `taken down: ${reason}`);

/** "2.5 % rusted", "class 8 of ISO 10289". */
export const lookReadingText = (look: Look): string =>
  isPercentLook(look)
    ? `${percentText(look.rustedPercent)} % rusted`
    : `class ${look.rating} on ${scaleTitles[look.scale]}`;

export function lookCellText({ body, corrects }: Observed<Look>, date: string): string {
  const edge = body.edgePercent === null ? "" : `, edge band ${percentText(body.edgePercent)} %`;
  const corrected = corrects === null ? "" : ", corrected";
  return `Coupon ${body.coupon}, ${body.face}, ${date}: ${lookReadingText(body)}${edge}, ${looksText.how[body.how]}${corrected}`;
}
