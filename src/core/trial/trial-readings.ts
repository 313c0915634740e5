/** In what the looks of a stored trial read: percents, or classes of one published scale. */
import { InputError } from "../input-error.ts";
import type { LookReadings } from "./look-responses.ts";
import { scaleTitles } from "./scale-ends.ts";
import { isPercentLook, type Look, type TrialRecord } from "./trial-record.ts";

/** A percent of the face, or a class. */
export const readingOf = (look: Look): number => (isPercentLook(look) ? look.rustedPercent : look.rating);

/** How one look is to be judged, whatever the others read. */
export const readingsOfLook = (look: Look, { plan }: TrialRecord): LookReadings =>
  isPercentLook(look)
    ? { by: "percent", thresholdPercent: plan.rustThresholdPercent }
    : { by: "rating", scale: look.scale };

/** Refuses a trial whose looks read in two ways: no class says how large the area is, and no two scales are one. */
export function trialReadings(record: TrialRecord): LookReadings {
  const ways = new Map(
    record.looks.map(({ body }) => [isPercentLook(body) ? "percents" : `classes of ${scaleTitles[body.scale]}`, body]),
  );
  if (ways.size > 1)
    throw new InputError("looks", [...ways.keys()], "looks that all read in percents, or in classes of one scale");
  const [any] = ways.values();
  return any ? readingsOfLook(any, record) : { by: "percent", thresholdPercent: record.plan.rustThresholdPercent };
}
