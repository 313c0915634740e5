/** Which coupons this look still wants, in the shuffled order of looking. Knows no treatment. */
import { daysBetween } from "../../core/trial/calendar.ts";
import { shuffledForLook } from "../../core/trial/look-order.ts";
import type { TrialRecord, When } from "../../core/trial/trial-record.ts";

/** The faces that are looked at here. */
export type Face = "front" | "back";
export type Queue = {
  /** The planned day that this date belongs to; null: no look was planned. */
  lookDay: number | null;
  /** Every coupon of this look, in the order of looking. */
  order: string[];
  left: string[];
  /** Faces still wanted, by coupon. */
  facesLeft: Map<string, Face[]>;
};

export function inspectionQueue(record: TrialRecord, date: string): Queue {
  const out = couponsOut(record, date);
  const lookDay = nearestLookDay(record, commonDay(record, date));
  const order = shuffledForLook([...out.keys()], { trial: record.id, look: lookDay ?? date });
  const faces = facesInUse(record);
  const facesLeft = new Map(
    order.map((coupon) => [coupon, faces.filter((face) => !isLookedAt(record, { coupon, face, date }, out))]),
  );
  return { lookDay, order, left: order.filter((coupon) => facesLeft.get(coupon)!.length > 0), facesLeft };
}

/** The coupon to go on with after this one: the next in order that is still wanted, from the start again at the end. */
export function nextCoupon({ order, left }: Queue, current: string | null): string | null {
  const at = current === null ? -1 : order.indexOf(current);
  const fromHere = [...order.slice(at + 1), ...order.slice(0, at + 1)];
  return fromHere.find((coupon) => coupon !== current && left.includes(coupon)) ?? null;
}

/** Outdoors on that date, with the date each was put out. A coupon taken down that day may still be looked at. */
function couponsOut(record: TrialRecord, date: string): Map<string, string> {
  const gone = record.takenDown.filter(({ body }) => !("date" in body.when) || body.when.date < date);
  const goneCoupons = new Set(gone.map(({ body }) => body.coupon));
  const started = record.putOut.filter(({ body }) => body.date <= date);
  return new Map(
    started.flatMap(({ body }) =>
      body.coupons.filter((coupon) => !goneCoupons.has(coupon)).map((coupon) => [coupon, body.date] as const),
    ),
  );
}

/** Days since the first coupons went out. */
function commonDay(record: TrialRecord, date: string): number {
  const first = record.putOut.map(({ body }) => body.date).sort()[0];
  return first === undefined ? 0 : daysBetween(first, date);
}

/** A look done a day early or late still is that look; halfway between two it is the earlier one, as for what is due. */
function nearestLookDay({ plan }: TrialRecord, day: number): number | null {
  const ascending = [...plan.lookDays].sort((a, b) => a - b);
  return ascending.reduce<number | null>(
    (nearest, planned) => (nearest === null || Math.abs(planned - day) < Math.abs(nearest - day) ? planned : nearest),
    null,
  );
}

/** The front always; the back too once somebody has looked at one. */
function facesInUse(record: TrialRecord): Face[] {
  return record.looks.some(({ body }) => body.face === "back") ? ["front", "back"] : ["front"];
}

function isLookedAt(
  record: TrialRecord,
  asked: { coupon: string; face: Face; date: string },
  out: Map<string, string>,
): boolean {
  const start = out.get(asked.coupon)!;
  const wanted = nearestLookDay(record, daysBetween(start, asked.date));
  return record.looks.some(({ body }) => {
    if (body.coupon !== asked.coupon || body.face !== asked.face) return false;
    if ("date" in body.when && body.when.date === asked.date) return true;
    return wanted !== null && nearestLookDay(record, dayOf(body.when, start)) === wanted;
  });
}

const dayOf = (when: When, start: string) => ("day" in when ? when.day : daysBetween(start, when.date));
