/** Photographs beside their treatments: there are none until the trial is closed. */
import type { Measurement } from "../../api/photo.ts";
import type { TrialRecord } from "../../core/trial/trial-record.ts";

export type FaceOnDate = { coupon: string; measurement: Measurement | null };
export type TreatmentFaces = { treatment: string; faces: FaceOnDate[] };

/** Fronts on that date, a row for each treatment in the plan's order. Null while the trial is blind: nothing may show both. */
export function facesByTreatment(
  record: TrialRecord,
  measurements: readonly Measurement[],
  date: string,
): TreatmentFaces[] | null {
  if (!record.unblinded) return null;
  const byId = new Map(measurements.map((one) => [one.id, one]));
  const onDate = (coupon: string) =>
    record.looks.find(
      ({ body }) =>
        body.coupon === coupon &&
        body.face === "front" &&
        "date" in body.when &&
        body.when.date === date &&
        body.measurement,
    );
  const looked = new Set(record.looks.map(({ body }) => body.coupon));
  return record.plan.treatments.map(({ name }) => ({
    treatment: name,
    faces: record.plan.places
      .filter((place) => place.treatment === name && (!place.spare || looked.has(place.coupon)))
      .map(({ coupon }) => ({ coupon, measurement: byId.get(onDate(coupon)?.body.measurement ?? "") ?? null }))
      .sort((a, b) => a.coupon.localeCompare(b.coupon, "en", { numeric: true })),
  }));
}

/** Dates of which there are measured photographs of fronts, the newest first. */
export function photographedDates(record: TrialRecord, measurements: readonly Measurement[]): string[] {
  const known = new Set(measurements.map(({ id }) => id));
  const dates = record.looks.flatMap(({ body }) =>
    "date" in body.when && body.face === "front" && known.has(body.measurement ?? "") ? [body.when.date] : [],
  );
  return [...new Set(dates)].sort().reverse();
}
