/** What a coupon's earlier photographs tell the next one: which was the first, and what was left out. Knows no treatment. */
import type { Measurement, MeasurementRequest } from "../../api/photo.ts";
import type { Look, Observed, TrialRecord } from "../../core/trial/trial-record.ts";
import type { SizeMm } from "./corner-geometry.ts";

export type FirstPhotograph = { measurement: string; date: string; sizeMm: SizeMm };
export type LeftOutBefore = {
  places: Pick<MeasurementRequest, "hiddenMm" | "outlineMm" | "contactsMm">;
  sizeMm: SizeMm;
};
type OneFace = { coupon: string; face: string };
/** A dated look with the measurement it rests on. */
export type DatedPhotograph = { date: string; look: string; measurement: Measurement };

/** Of one face, the earliest first. */
export function photographsOf(
  record: TrialRecord,
  measurements: readonly Measurement[],
  { coupon, face }: OneFace,
): DatedPhotograph[] {
  const byId = new Map(measurements.map((one) => [one.id, one]));
  return record.looks
    .flatMap(({ id, body }) => {
      const measurement = byId.get(body.measurement ?? "");
      if (body.coupon !== coupon || body.face !== face || !("date" in body.when) || !measurement) return [];
      return [{ date: body.when.date, look: id, measurement }];
    })
    .sort((a, b) => a.date.localeCompare(b.date));
}

/** The first one by the card that is older than this look; corners set by hand lie on each other too roughly. */
export function firstPhotograph(photographs: readonly DatedPhotograph[], before: string): FirstPhotograph | null {
  const first = photographs.find(({ date, measurement }) => measurement.card && date < before);
  return first
    ? { measurement: first.measurement.id, date: first.date, sizeMm: first.measurement.request.sizeMm }
    : null;
}

/** What a request says of it: only the card lays two photographs on each other well enough, and only as the number reads. */
export function comparedWith(
  first: FirstPhotograph | null,
  { cornersPx, sizeMm }: Pick<MeasurementRequest, "cornersPx" | "sizeMm">,
): Pick<MeasurementRequest, "first"> {
  return first && cornersPx === null && isSameSize(first.sizeMm, sizeMm) ? { first: first.measurement } : {};
}

export const isSameSize = (one: SizeMm, other: SizeMm) =>
  one.lengthMm === other.lengthMm && one.widthMm === other.widthMm;

/** As at the last look up to that date, where anything was left out or marked as a contact. */
export function leftOutBefore(photographs: readonly DatedPhotograph[], upTo: string): LeftOutBefore | null {
  const last = photographs.findLast(({ date }) => date <= upTo);
  if (!last) return null;
  const { hiddenMm, outlineMm, contactsMm, sizeMm } = last.measurement.request;
  if (!hiddenMm?.length && !outlineMm && !contactsMm?.length) return null;
  return {
    places: {
      ...(hiddenMm ? { hiddenMm } : {}),
      ...(outlineMm ? { outlineMm } : {}),
      ...(contactsMm ? { contactsMm } : {}),
    },
    sizeMm,
  };
}

/** The first photograph that a look is compared with, or would be; null: by the looks' dates none is older. */
export function firstOfLook(
  record: TrialRecord,
  measurements: readonly Measurement[],
  { body }: Observed<Look>,
): FirstPhotograph | null {
  if (!("date" in body.when)) return null;
  const { date } = body.when;
  const photographs = photographsOf(record, measurements, body);
  const named = measurements.find(({ id }) => id === body.measurement)?.rustSince?.first;
  const asMeasured = photographs.filter(({ measurement }) => measurement.id === named);
  return firstPhotograph(asMeasured, date) ?? firstPhotograph(photographs, date);
}
