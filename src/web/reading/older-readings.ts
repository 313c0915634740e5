/** Looks whose photographs were read by another way than the one that the trial is read by now. Knows no treatment. */
import type { Measurement } from "../../api/photo.ts";
import { isPercentLook, type Observed, type PercentLook, type TrialRecord } from "../../core/trial/trial-record.ts";

export type OlderReading = { look: Observed<PercentLook>; measurement: Measurement };

/** `byHand`: how many were mended by a hand, whose word stands. */
export function olderReadings(
  { looks }: Pick<TrialRecord, "looks">,
  measurements: readonly Measurement[],
  method: string,
): { older: OlderReading[]; byHand: number } {
  const byId = new Map(measurements.map((one) => [one.id, one]));
  const read = looks.flatMap((look): OlderReading[] => {
    const { body } = look;
    const measurement = byId.get(body.measurement ?? "");
    return isPercentLook(body) && measurement && measurement.method !== method
      ? [{ look: { ...look, body }, measurement }]
      : [];
  });
  const older = read.filter(({ measurement }) => measurement.byHand === null);
  return { older, byHand: read.length - older.length };
}
