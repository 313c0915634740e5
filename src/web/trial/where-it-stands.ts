/** What the trial page says of a record at a glance: who is out, since when, what was flagged. */
import type { CouponPlace } from "../../core/trial/coupon-place.ts";
import { exposureDay } from "../../core/trial/exposure-days.ts";
import { isReplaced } from "../../core/trial/stand-ins.ts";
import type { Observed, PutOut, TrialRecord } from "../../core/trial/trial-record.ts";
import type { RackCoupon } from "../../report/figures/rack-figure.tsx";

/** When the first coupons went out; null while all are indoors, or when a table only counted days. */
export function startDate(record: TrialRecord): string | null {
  return record.putOut.map((one) => one.body.date).sort()[0] ?? null;
}

/** A table without dates goes on counting days; everything else is written down by date. */
export function countsDays(record: TrialRecord): boolean {
  return record.putOut.length === 0 && record.looks.some((one) => "day" in one.body.when);
}

export function outAt(record: TrialRecord, coupon: string): Observed<PutOut> | null {
  return record.putOut.find((one) => one.body.coupons.includes(coupon)) ?? null;
}

/** Lost, taken down, or kept back because a spare has its place. */
export const isGone = (record: TrialRecord, coupon: string): boolean =>
  isReplaced(record, coupon) || record.takenDown.some((one) => one.body.coupon === coupon);

/** The last day of exposure on which anybody looked; null: nobody did, or no day is known. */
export function lastLookDay(record: TrialRecord): number | null {
  const days = record.looks.map(({ body }) => exposureDay(record, body.coupon, body.when));
  return days.reduce((last, day) => (day !== null && (last === null || day > last) ? day : last), null);
}

/** Coupons that were put out and not taken down. */
export function couponsOut(record: TrialRecord): string[] {
  const out = new Set(record.putOut.flatMap((one) => one.body.coupons));
  return record.plan.places.map((place) => place.coupon).filter((coupon) => out.has(coupon) && !isGone(record, coupon));
}

/** The rack as the page draws it; null when nobody wrote down where coupons hung. */
export function rackOf(record: TrialRecord): RackCoupon[] | null {
  const hung = record.plan.places.flatMap((place) => (place.rack === null ? [] : [{ ...place, rack: place.rack }]));
  if (hung.length === 0) return null;
  const flagged = new Set(record.deviations.flatMap((one) => (one.body.paperworkOnly ? [] : one.body.coupons)));
  return hung.map((place) => ({
    coupon: place.coupon,
    ...place.rack,
    block: place.block,
    standsIn: record.standIns.some((one) => one.body.spare === place.coupon),
    flagged: flagged.has(place.coupon),
    gone: isGone(record, place.coupon),
  }));
}

/** Coupon numbers of each treatment, in the order of the plan: the random order in which they are treated. */
export function couponsByTreatment(record: TrialRecord): { treatment: string; places: CouponPlace[] }[] {
  return record.plan.treatments.map(({ name }) => ({
    treatment: name,
    places: record.plan.places.filter((place) => place.treatment === name),
  }));
}

/** Coupons whose route has a step; of unknown routes (a table) nothing can be said, so they are among them. */
export function couponsWithStep(record: TrialRecord, step: string): string[] {
  const having = new Set(
    record.plan.treatments
      .filter((one) => one.route === null || one.route.some((own) => own.name === step))
      .map((one) => one.name),
  );
  return record.plan.places.filter((place) => having.has(place.treatment)).map((place) => place.coupon);
}

/** The steps of all routes, each once, in the order in which they come up. */
export function stepsOf(record: TrialRecord): string[] {
  return [...new Set(record.plan.treatments.flatMap((one) => (one.route ?? []).map((step) => step.name)))];
}

/** A step is done one by one when the route of any chosen coupon says so. */
export function doneAlone(record: TrialRecord, step: string, coupons: readonly string[]): boolean {
  const treatments = new Set(
    record.plan.places.filter((place) => coupons.includes(place.coupon)).map((place) => place.treatment),
  );
  return record.plan.treatments.some(
    (one) => treatments.has(one.name) && (one.route ?? []).some((own) => own.name === step && own.treated === "alone"),
  );
}

/** Coupons that went through a step already. */
export function throughStep(record: TrialRecord, step: string): Set<string> {
  return new Set(record.applications.filter((one) => one.body.step === step).flatMap((one) => one.body.coupons));
}
