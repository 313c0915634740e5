/**
 * What may be written down about a trial, given what already is: coupons that exist, dates that can follow each other,
 * corrections that leave the rest standing. Shapes are checked before; here it is what one observation says of another.
 */
import { InputError, requirePercent } from "../input-error.ts";
import type { TapeClass } from "../rating/tape-classes.ts";
import { requireSamePatches } from "./finish-colour.ts";
import { requireSimulation } from "./kept-curve.ts";
import { requirePhotoGrading } from "./photo-gradings.ts";
import { requirePlanCorrection } from "./plan-correction.ts";
import { requirePlan } from "./plan-rules.ts";
import { isClassOf, scaleEnds, scaleTitles } from "./scale-ends.ts";
import { requireKeepsPlace, requireStandIn } from "./stand-ins.ts";
import type { TapeTestDetails } from "./tape-test.ts";
import {
  type Application,
  type Circumstance,
  type Deviation,
  type FinishColour,
  type FirstRustTime,
  isPercentLook,
  type Look,
  type MeasuredValue,
  type Observation,
  type ObservationBody,
  type Observed,
  type PutOut,
  type TakenDown,
  type TapeTest,
  type TrialRecord,
  trialRecord,
  type WearTest,
  type When,
} from "./trial-record.ts";
import { requireSameMotion } from "./wear-conditions.ts";
import { requireWeighing } from "./weighing.ts";

type Trial = { id: string; name: string; observations: readonly Observation[] };

/** Refuses an observation that the trial cannot take. Dates are in the shop's own calendar, days count from putting out. */
export function requireAcceptable(trial: Trial, added: Observation): void {
  requireCorrection(trial, added);
  if (added.body.kind === "plan" && added.corrects !== null)
    requirePlanCorrection(trialRecord(trial, trial.observations), added.body.plan);
  const after = trialRecord({ id: trial.id, name: trial.name }, [...trial.observations, added]);
  requireBody(after, added.body);
  const restsOnIt = added.corrects !== null || ["put out", "taken down", "stand-in"].includes(added.body.kind);
  if (restsOnIt) requireOthersStand(after, added);
}

/** Refuses a trial that contradicts itself: for one that comes in whole, where nothing was corrected yet. Dates and days as above. */
export function requireTrial(trial: Trial): void {
  const record = trialRecord({ id: trial.id, name: trial.name }, trial.observations);
  for (const { body } of trial.observations) requireBody(record, body);
}

/** A correction names an observation of this trial that still stands, and says the same kind of thing or withdraws it. */
function requireCorrection({ observations }: Trial, { corrects, body }: Observation): void {
  if (corrects === null) {
    if (body.kind === "withdrawal") throw new InputError("corrects", null, "the observation that is withdrawn");
    if (body.kind === "plan" && observations.length > 0)
      throw new InputError("corrects", null, "the plan that this one replaces; a trial has one");
    return;
  }
  const target = observations.find((one) => one.id === corrects.id);
  if (!target) throw new InputError("corrects.id", corrects.id, "the id of an observation of this trial");
  const newer = observations.find((one) => one.corrects?.id === corrects.id);
  if (newer)
    throw new InputError(
      "corrects.id",
      corrects.id,
      `an observation that still stands; ${newer.by} replaced this one on ${newer.recordedAt} by ${newer.id}`,
    );
  const kind = kindBeforeWithdrawal(observations, target);
  if (body.kind === "withdrawal" && kind === "plan")
    throw new InputError("kind", body.kind, '"plan": a trial keeps a plan, which can be corrected');
  if (body.kind !== "withdrawal" && body.kind !== kind)
    throw new InputError("kind", body.kind, `"${kind}", as the observation that it corrects, or "withdrawal"`);
}

/** What was withdrawn can be taken up again, as what it was. */
function kindBeforeWithdrawal(observations: readonly Observation[], one: Observation): ObservationBody["kind"] {
  const earlier = observations.find(({ id }) => id === one.corrects?.id);
  return one.body.kind === "withdrawal" && earlier ? kindBeforeWithdrawal(observations, earlier) : one.body.kind;
}

/** Others may rest on what is corrected, or on what is now said to have been earlier: they must still hold. */
function requireOthersStand(after: TrialRecord, { id, corrects, body }: Observation): void {
  for (const other of allOf(after)) {
    if (other.id === id) continue;
    try {
      requireBody(after, other.body);
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      const { argument, value } = changedBy(body, corrects);
      const what = `${other.body.kind} by ${other.by}, recorded ${other.recordedAt}`;
      throw new InputError(argument, value, `what leaves the rest standing, but then of the ${what}, ${error.message}`);
    }
  }
}

function allOf(record: TrialRecord): Observed<ObservationBody>[] {
  const { applications, deviations, putOut, looks, takenDown, standIns } = record;
  const { tapeTests, firstRustTimes, wearTests, values, weighings, finishColours, circumstances } = record;
  const tests = [...tapeTests, ...firstRustTimes, ...wearTests, ...values, ...weighings, ...finishColours];
  return [...applications, ...deviations, ...putOut, ...looks, ...tests, ...circumstances, ...takenDown, ...standIns];
}

function changedBy(body: ObservationBody, corrects: Observation["corrects"]): { argument: string; value: unknown } {
  if (body.kind === "put out") return { argument: "date", value: body.date };
  if (body.kind === "taken down") return whenArgument(body.when);
  if (body.kind === "stand-in") return { argument: "for", value: body.for };
  return { argument: "corrects.id", value: corrects?.id };
}

/** The rules of one observation against a record that already holds it. */
function requireBody(record: TrialRecord, body: ObservationBody): void {
  if (body.kind === "plan") requirePlan(body.plan);
  if (body.kind === "application") requireApplication(record, body);
  if (body.kind === "deviation") requireDeviation(record, body);
  if (body.kind === "put out") requirePutOut(record, body);
  if (body.kind === "look") requireLook(record, body);
  if (body.kind === "tape test") requireTapeTest(record, body);
  if (body.kind === "photo grading") requirePhotoGrading(record, body);
  if (body.kind === "first rust") requireFirstRustTime(record, body);
  if (body.kind === "wear test") requireWearTest(record, body);
  if (body.kind === "value") requireValue(record, body);
  if (body.kind === "weighing") requireWeighing(record, body);
  if (body.kind === "finish colour") requireFinishColour(record, body);
  if (body.kind === "circumstance") requireCircumstance(record, body);
  if (body.kind === "taken down") requireTakenDown(record, body);
  if (body.kind === "stand-in") requireStandIn(record, body);
  if (body.kind === "simulation") requireSimulation(record, body);
}

/** Refuses coupons that are not there, a step that a coupon's route does not have, an end before its start. */
export function requireApplication(record: TrialRecord, body: Application): void {
  requireCoupons(record, body.coupons);
  for (const [at, coupon] of body.coupons.entries()) {
    const steps = stepsOf(record, coupon);
    if (steps !== null && !steps.includes(body.step))
      throw new InputError("step", body.step, `a step of the route of coupons[${at}], ${coupon}: ${steps.join(", ")}`);
  }
  if (body.startedAt !== null && body.endedAt !== null && Date.parse(body.endedAt) < Date.parse(body.startedAt))
    throw new InputError("endedAt", body.endedAt, `a time not before the start, ${body.startedAt}`);
}

/** Refuses coupons that are not there and a step that no route has. */
export function requireDeviation(record: TrialRecord, body: Deviation): void {
  requireCoupons(record, body.coupons);
  const routes = record.plan.treatments.map((one) => one.route);
  if (body.step === null || routes.includes(null)) return;
  const steps = [...new Set(routes.flatMap((route) => (route ?? []).map((step) => step.name)))];
  if (!steps.includes(body.step)) throw new InputError("step", body.step, `a step of a route: ${steps.join(", ")}`);
}

/** Refuses a coupon that is outdoors already or was taken down. Dates in the shop's calendar. */
export function requirePutOut(record: TrialRecord, body: PutOut): void {
  requireCoupons(record, body.coupons);
  for (const [at, coupon] of body.coupons.entries()) {
    const earlier = record.putOut.find((one) => one.body !== body && one.body.coupons.includes(coupon));
    if (earlier)
      throw new InputError(
        `coupons[${at}]`,
        coupon,
        `a coupon that is not out yet; it was put out on ${earlier.body.date}${earlier.body.site === null ? "" : ` at ${earlier.body.site}`}`,
      );
    const keptFor = record.plan.places.find((place) => place.coupon === coupon)?.keptFor;
    if (keptFor !== undefined)
      throw new InputError(`coupons[${at}]`, coupon, `a coupon that goes out; this one is kept for the ${keptFor}`);
    // One lost on the very day it went out was out, and was replaced all the same.
    const down = record.takenDown.some((one) => one.body.coupon === coupon);
    if (!down) requireKeepsPlace(record, `coupons[${at}]`, coupon);
  }
}

/** Refuses a look at a coupon that is not out yet, no longer out, or not of this trial. Dates in the shop's calendar. */
export function requireLook(record: TrialRecord, body: Look): void {
  requirePlaced(record, body.coupon);
  const start = putOutDate(record, body.coupon);
  // Trials made of a table may have dates and no word of when the coupons were put out.
  if (start === null && "date" in body.when && record.plan.allocation.how === "drawn")
    throw new InputError("coupon", body.coupon, "a coupon that was put out; this one was not yet");
  requireNotBefore(start, body.coupon, body.when);
  requireNotAfterTakenDown(record, body);
  if (!isPercentLook(body) && !isClassOf(body.rating, scaleEnds[body.scale]))
    throw new InputError("rating", body.rating, `a class of ${scaleTitles[body.scale]}`);
}

/** Refuses a tape test before the coupon was put out (a coupon kept indoors has no such date), or after it was lost; a class that is not of its own cut. */
export function requireTapeTest(record: TrialRecord, body: TapeTest): void {
  requirePlaced(record, body.coupon);
  requireTestDate(record, body);
  if (body.details) requireTapeDetails(body.tapeClass, body.details);
}

/** The class that counts is the eye's or the photograph's own, and all are of the cut that was made. */
function requireTapeDetails(tapeClass: TapeClass, { cut, eyeClass, photo, counts }: TapeTestDetails): void {
  const counting = counts === "eye" ? eyeClass : photo?.tapeClass;
  if (counting === undefined) throw new InputError("details.counts", counts, '"eye": there is no photograph');
  if (tapeClass !== counting) throw new InputError("tapeClass", tapeClass, `${counting}, the class of the ${counts}`);
  const letter = cut.form === "cross-cut" ? "B" : "A";
  for (const one of [eyeClass, photo?.tapeClass])
    if (one !== undefined && !one.endsWith(letter))
      throw new InputError("tapeClass", one, `a class ending in ${letter}, as the cut is a ${cut.form}`);
}

function requireTestDate(record: TrialRecord, { coupon, when }: TapeTest | WearTest | MeasuredValue): void {
  // A table gives no date.
  if (when === null) return;
  requireNotBefore(putOutDate(record, coupon), coupon, when);
  const lost = record.takenDown.some((one) => one.body.coupon === coupon && one.body.reason === "lost");
  // On its last day it may have been tested before it was lost.
  if (lost) requireNotAfterTakenDown(record, { coupon, when });
}

/** Refuses an interval of days that runs backwards, or a second one of a coupon. */
export function requireFirstRustTime(record: TrialRecord, body: FirstRustTime): void {
  requirePlaced(record, body.coupon);
  requireInterval(body.leftDays, ["rightDays", body.rightDays]);
  requireOnce(record, { standing: record.firstRustTimes, body, what: "time to first rust" });
}

/** Refuses an interval of strokes that runs backwards, a second one of a coupon at one place that does not say so, or one that counts something else; dates as of a tape test. */
export function requireWearTest(record: TrialRecord, body: WearTest): void {
  requirePlaced(record, body.coupon);
  requireTestDate(record, body);
  requireInterval(body.leftStrokes, ["rightStrokes", body.rightStrokes]);
  const samePlace = record.wearTests.filter((one) => one.body.place === body.place);
  requireSameMotion(samePlace, body);
  const what = `wear test${body.place === null ? "" : ` of the ${body.place}`}`;
  requireOnce(record, { standing: samePlace, body, what });
}

/** Refuses a value that no question asks for, that cannot be, or a second one of a coupon that does not say so. In the question's own unit. */
export function requireValue(record: TrialRecord, body: MeasuredValue): void {
  requirePlaced(record, body.coupon);
  requireTestDate(record, body);
  const asked = record.plan.questions.flatMap((one) => (one.response === "value" ? [one] : []));
  const question = asked.find((one) => one.name === body.name);
  if (!question)
    throw new InputError("name", body.name, `a value that is asked for: ${asked.map((one) => one.name).join(", ")}`);
  const { kind, scale } = question;
  if (kind === "binary" && body.value !== 0 && body.value !== 1)
    throw new InputError("value", body.value, "1 (good) or 0 (bad)");
  if (kind === "area") requirePercent("value", body.value);
  if (kind === "ordinal" && scale !== null && !isClassOf(body.value, scale))
    throw new InputError("value", body.value, `a whole class from ${scale.best} (best) to ${scale.worst}`);
  const standing = record.values.filter((one) => one.body.name === body.name);
  requireOnce(record, { standing, body, what: body.name });
}

/** Refuses a colour of a coupon that is not there, outside the dates that a test may have, or read by another card. */
export function requireFinishColour(record: TrialRecord, body: FinishColour): void {
  requirePlaced(record, body.coupon);
  requireSamePatches(record, body);
  // Before it went out the finish has its colour too; after it was lost nobody can see it.
  const lost = record.takenDown.some((one) => one.body.coupon === body.coupon && one.body.reason === "lost");
  if (lost) requireNotAfterTakenDown(record, body);
}

/** Refuses a circumstance that was said of the coupon before. */
export function requireCircumstance(record: TrialRecord, body: Circumstance): void {
  requireCoupon(record, "coupon", body.coupon);
  const standing = record.circumstances.filter((one) => one.body.name === body.name);
  requireOnce(record, { standing, body, what: body.name });
}

function requireInterval(left: number, [argument, right]: [string, number | null]): void {
  if (right !== null && (right < left || right === 0))
    throw new InputError(argument, right, `${left === 0 ? "a number above 0" : `${left} or more`}, or nothing`);
}

type Once<Body> = { standing: readonly Observed<Body & ObservationBody>[]; body: Body; what: string };

/**
 * A coupon has one of them, but for further readings that say so: a better reading corrects the one that stands. What two
 * devices wrote down in ignorance of each other is kept twice, and asked about.
 */
function requireOnce<Body extends ObservationBody & { coupon: string; again?: true }>(
  { twice }: TrialRecord,
  { standing, body, what }: Once<Body>,
): void {
  if (body.again || twice.some(({ differs }) => differs.body === body)) return;
  const other = standing.find((one) => one.body !== body && !one.body.again && one.body.coupon === body.coupon);
  if (other)
    throw new InputError(
      "coupon",
      body.coupon,
      `a coupon without a ${what} yet; ${other.by} wrote one down: correct it`,
    );
}

/** Refuses a coupon taken down twice, or before it was put out. Dates in the shop's calendar. */
export function requireTakenDown(record: TrialRecord, body: TakenDown): void {
  requireCoupon(record, "coupon", body.coupon);
  const other = record.takenDown.find((one) => one.body !== body && one.body.coupon === body.coupon);
  if (other)
    throw new InputError(
      "coupon",
      body.coupon,
      `a coupon that is still there; it was taken down (${other.body.reason}) ${inWords(other.body.when)}`,
    );
  requireNotBefore(putOutDate(record, body.coupon), body.coupon, body.when);
}

function requireCoupons(record: TrialRecord, coupons: readonly string[]): void {
  for (const [at, coupon] of coupons.entries()) {
    requireCoupon(record, `coupons[${at}]`, coupon);
    if (coupons.indexOf(coupon) !== at) throw new InputError(`coupons[${at}]`, coupon, "each coupon once");
  }
}

function requireCoupon(record: TrialRecord, argument: string, coupon: string): void {
  if (!record.plan.places.some((place) => place.coupon === coupon))
    throw new InputError(argument, coupon, `the number of a coupon of "${record.name}"`);
}

function requirePlaced(record: TrialRecord, coupon: string): void {
  requireCoupon(record, "coupon", coupon);
  requireKeepsPlace(record, "coupon", coupon);
}

/** Null: nobody wrote the route down. */
function stepsOf({ plan }: TrialRecord, coupon: string): string[] | null {
  const treatment = plan.places.find((place) => place.coupon === coupon)?.treatment;
  return plan.treatments.find((one) => one.name === treatment)?.route?.map((step) => step.name) ?? null;
}

function putOutDate(record: TrialRecord, coupon: string): string | null {
  return record.putOut.find((one) => one.body.coupons.includes(coupon))?.body.date ?? null;
}

/** Days count from putting out, so only a date can be too early. */
function requireNotBefore(start: string | null, coupon: string, when: When): void {
  if (start !== null && "date" in when && when.date < start)
    throw new InputError("when.date", when.date, `a date from ${start} on, when coupon ${coupon} was put out`);
}

function requireNotAfterTakenDown(record: TrialRecord, body: { coupon: string; when: When }): void {
  const start = putOutDate(record, body.coupon);
  for (const { body: down } of record.takenDown) {
    if (down.coupon !== body.coupon || !isAfter(body.when, down.when, start)) continue;
    const { argument, value } = whenArgument(body.when);
    const until = `up to when coupon ${body.coupon} was taken down (${down.reason}), ${inWords(down.when)}`;
    throw new InputError(argument, value, `a time ${until}`);
  }
}

function isAfter(one: When, other: When, start: string | null): boolean {
  if ("date" in one && "date" in other) return one.date > other.date;
  const [day, otherDay] = [dayOf(one, start), dayOf(other, start)];
  return day !== null && otherDay !== null && day > otherDay;
}

/** Null: a date without a start from which days could be counted. */
function dayOf(when: When, start: string | null): number | null {
  if ("day" in when) return when.day;
  return start === null ? null : (Date.parse(when.date) - Date.parse(start)) / 86_400_000;
}

function whenArgument(when: When): { argument: string; value: unknown } {
  return "date" in when ? { argument: "when.date", value: when.date } : { argument: "when.day", value: when.day };
}

function inWords(when: When): string {
  return "date" in when ? `on ${when.date}` : `on day ${when.day}`;
}
