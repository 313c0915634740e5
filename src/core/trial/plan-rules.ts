/** What makes a plan whole: every coupon has one place, every treatment a name of its own, every question its answerer. */
import { InputError } from "../input-error.ts";
import { type DeclaredQuestion, marginKind, type ValueResponse } from "./declared-question.ts";
import { sameValue } from "./same-value.ts";
import { colourUnits } from "./seen-as.ts";
import type { Plan } from "./trial-record.ts";
import { weighedUnit } from "./weighed-as.ts";

/** Refuses a plan that contradicts itself. Lengths in mm; margins in what their question is measured in. */
export function requirePlan(plan: Plan): void {
  requireTreatments(plan);
  requirePlaces(plan);
  requireQuestions(plan);
  const { lengthMm, widthMm } = plan.couponSize;
  const narrowMm = Math.min(lengthMm, widthMm);
  if (2 * plan.edgeBandMm >= narrowMm)
    throw new InputError("edgeBandMm", plan.edgeBandMm, `less than half of the coupon's narrow side, ${narrowMm} mm`);
}

function requireTreatments({ treatments }: Plan): void {
  const first = new Map<string, number>();
  for (const [at, { name }] of treatments.entries()) {
    const plain = name.trim().toLowerCase();
    if (first.has(plain))
      throw new InputError(`treatments[${at}].name`, name, "a name that no other treatment has, whatever its case");
    first.set(plain, at);
  }
  const controls = treatments.flatMap((one, at) => (one.role === "control" ? [at] : []));
  if (controls.length > 1)
    throw new InputError(`treatments[${controls[1]}].role`, "control", "one control at most; it is what others face");
}

function requirePlaces({ treatments, places }: Plan): void {
  const coupons = new Set<string>();
  const taken = new Map<string, string>();
  for (const [at, place] of places.entries()) {
    if (coupons.has(place.coupon))
      throw new InputError(`places[${at}].coupon`, place.coupon, "a number that no other coupon of this trial has");
    coupons.add(place.coupon);
    if (!treatments.some((one) => one.name === place.treatment))
      throw new InputError(`places[${at}].treatment`, place.treatment, `one of ${quoted(treatments)}`);
    if (place.rack === null) continue;
    const where = `row ${place.rack.row}, column ${place.rack.column}`;
    const other = taken.get(where);
    if (other !== undefined)
      throw new InputError(`places[${at}].rack`, where, `a free place on the rack; coupon ${other} hangs there`);
    taken.set(where, place.coupon);
  }
}

function requireQuestions({ questions, treatments }: Plan): void {
  for (const [at, question] of questions.entries()) {
    if (question.family === "control" && !treatments.some((one) => one.role === "control"))
      throw new InputError(`questions[${at}].family`, question.family, '"pairs", or a treatment that is the control');
    requireMargin(`questions[${at}].margin`, question);
    if (question.order !== undefined) requireOrder(`questions[${at}].order`, question.order, treatments);
    if (question.response === "value") requireValueQuestion(questions, at, question);
  }
}

/** Compared treatments, each once, three or more: two have no order beyond their comparison. */
function requireOrder(argument: string, order: readonly string[], treatments: Plan["treatments"]): void {
  const compared = treatments.filter((one) => one.role !== "witness");
  if (order.length < 3 || new Set(order).size !== order.length)
    throw new InputError(argument, order, "three treatments or more, each once");
  const unknown = order.find((name) => !compared.some((one) => one.name === name));
  if (unknown !== undefined) throw new InputError(argument, unknown, `one of ${quoted(compared)}`);
}

function requireMargin(argument: string, question: DeclaredQuestion): void {
  const { margin } = question;
  if (margin === null) return;
  const kind = marginKind(question);
  if (kind === "factor" && margin <= 1) throw new InputError(argument, margin, "a factor above 1");
  if (kind === "share" && margin >= 1)
    throw new InputError(argument, margin, "a difference of shares, between 0 and 1");
}

/** Classes have a scale and nothing else has; one name stands for one kind of value. */
function requireValueQuestion(questions: Plan["questions"], at: number, question: ValueResponse): void {
  const { name, kind, scale, ratio, unit, weighed, seen } = question;
  if (kind === "ordinal" ? scale === null || scale.best === scale.worst : scale !== null)
    throw new InputError(`questions[${at}].scale`, scale, "a best and a worst class, of classes only");
  if (ratio && kind !== "continuous")
    throw new InputError(`questions[${at}].ratio`, ratio, "false: only continuous values are compared as ratios");
  if (weighed !== undefined && (kind !== "continuous" || unit !== weighedUnit))
    throw new InputError(
      `questions[${at}].unit`,
      unit,
      `${weighedUnit}, of a measured number: weighings give nothing else`,
    );
  if (seen !== undefined && (kind !== "continuous" || unit !== colourUnits[seen.of] || weighed !== undefined))
    throw new InputError(
      `questions[${at}].unit`,
      unit,
      `${colourUnits[seen.of]}, of a measured number: a finish colour gives nothing else`,
    );
  const other = questions.slice(0, at).find((one) => one.response === "value" && one.name === name);
  if (
    other?.response === "value" &&
    (other.kind !== kind || other.unit !== unit || !sameValue(madeOf(other), madeOf(question)))
  )
    throw new InputError(
      `questions[${at}].name`,
      name,
      `a name of its own; "${name}" is ${other.kind} in "${other.unit}"`,
    );
}

/** What is weighed or photographed for it, where it is not written down. */
const madeOf = ({ weighed, seen }: ValueResponse) => ({ weighed, seen });

function quoted(treatments: Plan["treatments"]): string {
  return treatments.map((one) => `"${one.name}"`).join(", ");
}
