/** A spare that takes over: a coupon lost or spoiled before it went out leaves its place to a spare of the same treatment. */
import { InputError } from "../input-error.ts";
import { placesAfter } from "./places-after.ts";
import type { StandIn, TrialRecord, When } from "./trial-record.ts";

/**
 * Numbers of the spares that can take a coupon's place, those coated in the same batch first; empty where none is left, or
 * where the coupon's time outdoors has begun. `lost`: when it is said to be lost; null: it is not outdoors.
 */
export function sparesFor(record: TrialRecord, coupon: string, lost = whenDown(record, coupon)): string[] {
  const own = record.plan.places.find((place) => place.coupon === coupon);
  if (!own || own.spare || whyNoPlaceToTake(record, coupon, lost) !== null) return [];
  const free = record.plan.places.filter(
    (place) =>
      place.spare &&
      place.treatment === own.treatment &&
      !isReplaced(record, place.coupon) &&
      !record.takenDown.some(({ body }) => body.coupon === place.coupon) &&
      !record.putOut.some(({ body }) => body.coupons.includes(place.coupon)),
  );
  return [
    ...free.filter((place) => place.batch === own.batch),
    ...free.filter((place) => place.batch !== own.batch),
  ].map((place) => place.coupon);
}

function whenDown(record: TrialRecord, coupon: string): When | null {
  return record.takenDown.find(({ body }) => body.coupon === coupon)?.body.when ?? null;
}

/** As it would stand without this one: its place and its spare are free again. For whoever corrects it. */
export function withoutStandIn(record: TrialRecord, id: string): TrialRecord {
  const standIns = record.standIns.filter((one) => one.id !== id);
  const drawn = record.plans.at(-1)?.body.plan.places ?? [];
  const places = placesAfter(
    drawn,
    standIns.map((one) => one.body),
  );
  return { ...record, standIns, plan: { ...record.plan, places } };
}

/** Another coupon has its place now. */
export const isReplaced = (record: TrialRecord, coupon: string): boolean =>
  record.standIns.some(({ body }) => body.for === coupon);

/** Refuses a coupon whose place a spare took: nothing more is to be seen of it. */
export function requireKeepsPlace(record: TrialRecord, argument: string, coupon: string): void {
  const standIn = record.standIns.find(({ body }) => body.for === coupon)?.body;
  if (standIn)
    throw new InputError(argument, coupon, `a coupon that has its place; coupon ${standIn.spare} took it over`);
}

/** Why no spare can take this coupon's place any more; null: one can. */
function whyNoPlaceToTake(record: TrialRecord, coupon: string, lost: When | null): string | null {
  if (record.looks.some(({ body }) => body.coupon === coupon)) return "a coupon that nobody has looked at yet";
  const out = record.putOut.find(({ body }) => body.coupons.includes(coupon))?.body;
  if (!out) return null;
  const inTime = lost !== null && ("day" in lost ? lost.day === 0 : lost.date <= out.date);
  return inTime ? null : `a coupon lost before it went out, or on that day, ${out.date}`;
}

/** Refuses a spare of another treatment, one that is used or gone, and a place that is no longer free to take. */
export function requireStandIn(record: TrialRecord, body: StandIn): void {
  const drawn = record.plans.at(-1)?.body.plan.places ?? [];
  const lost = drawn.find((place) => place.coupon === body.for);
  const spare = drawn.find((place) => place.coupon === body.spare);
  if (!lost) throw new InputError("for", body.for, `the number of a coupon of "${record.name}"`);
  if (!spare?.spare) throw new InputError("spare", body.spare, `the number of a spare of "${record.name}"`);
  // The message names no treatment: whoever looks at coupons may read it.
  if (spare.treatment !== lost.treatment)
    throw new InputError("spare", body.spare, `a spare of the same treatment as coupon ${body.for}`);
  const others = record.standIns.filter((one) => one.body !== body).map((one) => one.body);
  if (others.some((one) => one.spare === body.spare))
    throw new InputError("spare", body.spare, "a spare that has not taken another place yet");
  if (others.some((one) => one.for === body.for))
    throw new InputError("for", body.for, "a coupon whose place no spare has taken yet");
  if (lost.spare && !others.some((one) => one.spare === body.for))
    throw new InputError("for", body.for, "a coupon with a place; this one is a spare itself");
  if (leadsBack(record, body))
    throw new InputError("spare", body.spare, `a spare whose place coupon ${body.for} had not`);
  const why = whyNoPlaceToTake(record, body.for, whenDown(record, body.for));
  if (why !== null) throw new InputError("for", body.for, why);
}

/** A place handed round in a ring would be nobody's. */
function leadsBack(record: TrialRecord, body: StandIn): boolean {
  const next = new Map(record.standIns.map((one) => [one.body.for, one.body.spare]));
  let at: string | undefined = body.spare;
  for (let hops = 0; hops <= next.size && at !== undefined && at !== body.for; hops++) at = next.get(at);
  return at === body.for;
}
