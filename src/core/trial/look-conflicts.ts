/**
 * Two devices looked at one face of a coupon on one day, neither knowing of the other, and read it differently. Until
 * somebody says which stands, the look that was written down first counts. A second look by somebody who could know of
 * the first is a second pass and no conflict.
 */
import { lookPasses } from "./second-pass.ts";
import { isPercentLook, type Look, type Observed, type TrialRecord } from "./trial-record.ts";
import { unknownToEachOther } from "./written-at.ts";

export type LookConflict = { counts: Observed<Look>; differs: Observed<Look> };

/** Looks between which nobody has chosen yet; `counts` is the one written down first. */
export function lookConflicts(record: TrialRecord): LookConflict[] {
  return lookPasses(record)
    .second.filter(({ first, again }) => unknownToEachOther(first, again) && reading(first) !== reading(again))
    .map(({ first, again }) => ({ counts: first, differs: again }));
}

const reading = ({ body }: Observed<Look>): string =>
  isPercentLook(body) ? `${body.rustedPercent} %` : `${body.rating} ${body.scale}`;
