/** What the exact tests add up: one score for each unit, made anew for every set of treatments that is compared. */
import { InputError } from "../input-error.ts";
import { logRankScores } from "../statistics/log-rank-scores.ts";
import { doubledMidranks } from "../statistics/midranks.ts";
import { mean } from "../statistics/moments.ts";
import type { PlacedScore } from "../statistics/placed-rearrangements.ts";
import type { Question, QuestionCoupon, TimeDatum } from "./question.ts";
import type { Unit } from "./units-of-replication.ts";

/** The mean of the coupons' scores; groups are numbered as in `treatments`. */
export function unitScores(question: Question, units: readonly Unit[], treatments: readonly string[]): PlacedScore[] {
  const all: QuestionCoupon[] = [];
  for (const { coupons } of units) for (const coupon of coupons) all.push(coupon);
  const scores = couponScores(question, all);
  let next = 0;
  return units.map(({ treatment, block, plot, coupons: { length } }) => {
    const from = next;
    next += length;
    const score = length === 1 ? scores[from]! : mean(scores.slice(from, next));
    return { score, group: treatments.indexOf(treatment), block, plot };
  });
}

function couponScores(question: Question, coupons: readonly QuestionCoupon[]): number[] {
  switch (question.kind) {
    case "time":
      return logRankScores(coupons.map(inspectionInterval));
    case "area":
    case "ordinal":
      return doubledMidranks(coupons.map((coupon) => scaledValue(question, coupon))).map((rank) => rank / 2);
    case "binary":
    case "continuous":
      return coupons.map((coupon) => scaledValue(question, coupon));
  }
}

/** The looks between which a coupon rusted, in days or strokes; a value is refused. */
export function inspectionInterval({ coupon, datum }: QuestionCoupon) {
  if (!("left" in datum)) throw new InputError(`coupon ${coupon}`, datum, "a time with left and right");
  return { leftDays: datum.left, rightDays: datum.right };
}

/**
 * The value on the scale on which it is compared: areas as log10(area + half the limit), all that nobody could see as one;
 * ratios as logarithms; all else as it is.
 */
export function scaledValue(question: Question, { coupon, datum }: QuestionCoupon): number {
  if (!("value" in datum)) throw new InputError(`coupon ${coupon}`, datum, "a value");
  const { value } = datum;
  if (question.kind === "area") {
    const limit = detectionLimitPercent(question);
    return Math.log10((value <= limit ? 0 : value) + limit / 2);
  }
  if (!question.ratio || question.kind !== "continuous") return value;
  if (!(value > 0)) throw new InputError(`coupon ${coupon}`, value, "a value above 0: ratios are compared");
  return Math.log(value);
}

/** Percent at or below which no rust can be seen; areas are refused without it. */
export function detectionLimitPercent({ detectionLimitPercent }: Question): number {
  if (detectionLimitPercent === null || !(detectionLimitPercent > 0))
    throw new InputError("detectionLimitPercent", detectionLimitPercent, "a percent above 0 for a rusted area");
  return detectionLimitPercent;
}

/** One value for a unit: the mean; of classes the worse middle one; of yes and no the worse. */
export function unitValue(question: Question, unit: Unit): number {
  const values = unit.coupons.map((coupon) => scaledValue(question, coupon));
  const worstFirst = [...values].sort((a, b) => (question.better === "higher" ? a - b : b - a));
  if (question.kind === "binary") return worstFirst[0]!;
  if (question.kind === "ordinal") return worstFirst[Math.ceil(values.length / 2) - 1]!;
  return mean(values);
}

/** Where all of these coupons stand at one and the same end of what could be seen; null: they do not. */
export function commonEnd(
  question: Question,
  units: readonly Unit[],
): "none rusted" | "all at once" | "all best" | "all worst" | null {
  const coupons = units.flatMap((unit) => unit.coupons);
  if (question.kind === "time") return commonEndOfTimes(coupons.map(inspectionInterval));
  if (question.kind === "continuous") return null;
  const values = coupons.map(({ datum }) => ("value" in datum ? datum.value : Number.NaN));
  if (question.kind === "area") {
    const limit = detectionLimitPercent(question);
    if (values.every((value) => value <= limit)) return "all best";
    return values.every((value) => value >= 100) ? "all worst" : null;
  }
  const ends = question.kind === "binary" ? { best: 1, worst: 0 } : question.scale;
  if (values.every((value) => value === ends?.best)) return "all best";
  return values.every((value) => value === ends?.worst) ? "all worst" : null;
}

function commonEndOfTimes(times: readonly { leftDays: TimeDatum["left"]; rightDays: TimeDatum["right"] }[]) {
  if (times.every((time) => time.rightDays === null)) return "none rusted";
  return times.every((time) => time.leftDays === 0) ? "all at once" : null;
}
