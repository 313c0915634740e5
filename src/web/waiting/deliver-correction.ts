/**
 * A brush correction that waited: the shop measures with it, and only what it brought counts as delivered. Work that was lost
 * with a server is asked for again under the same id, so that it is made once.
 */
import type { NewObservation } from "../../api/observation.ts";
import type { Measurement } from "../../api/photo.ts";
import { endOfJob } from "../inspect/end-of-job.ts";
import { keptInspection } from "../inspect/inspection-state.ts";
import { startCorrecting } from "../inspect/measuring.ts";
import { keep, readKept } from "../keep/kept.ts";
import { NoAnswer, Refused } from "../shop/ask.ts";
import { inspectText } from "../text/inspect.ts";
import type { WaitingCorrection } from "./waiting-item.ts";

/** Much more than a correction takes, so that a shop that hangs does not hold up the rest for good. */
const measuringMs = 120_000;

export async function correctByShop({ measurement, correction }: WaitingCorrection): Promise<Measurement> {
  const signal = AbortSignal.timeout(measuringMs);
  await startCorrecting(measurement, correction, signal);
  const end = await endOfJob(correction.id, { signal, progress: () => undefined });
  if (end.is === "measured") return end.measurement;
  if (end.is === "unknown") throw new NoAnswer();
  throw new Refused({ type: "about:blank", title: end.why ?? inspectText.measuringStopped, status: 422 });
}

/** The inspection that was being corrected goes on with it, whether or not its screen stands open; one that went another way is left alone. */
export function goOnCorrected({ inspection, measurement, correction }: WaitingCorrection): void {
  if (inspection === null) return;
  const kept = keptInspection(readKept(`inspection ${inspection}`));
  if (kept.step !== "fix" || kept.measurement !== measurement) return;
  keep(`inspection ${inspection}`, { step: "measured", measurement: correction.id, look: kept.look });
}

/** The look already written down is replaced by what was measured with the correction. */
export function correctedLook(
  { correction }: WaitingCorrection,
  look: NonNullable<WaitingCorrection["look"]>,
  { rustedPercent, edgePercent }: Measurement,
): NewObservation {
  const body = { ...look.body, rustedPercent, edgePercent, how: "photo" as const, measurement: correction.id };
  return { id: look.id, by: correction.by, corrects: { id: look.corrects, why: correction.why }, body };
}
