/** The tape test of a stored trial: the worst class of each coupon's tests. */
import { InputError } from "../input-error.ts";
import { groupedByCoupon } from "./coupon-facts.ts";
import { type MeasuredResponse, worstClass } from "./look-responses.ts";
import { tapeScaleEnds } from "./scale-ends.ts";
import { tapeTestNotes } from "./tape-test.ts";
import type { TrialRecord } from "./trial-record.ts";

/** Classes 5 (best) to 0; X-cuts and cross-cuts are two scales and are not put into one. `response`: what the answer calls it. */
export function tapeResponse({ tapeTests }: TrialRecord, response: string): MeasuredResponse {
  const tests = tapeTests.map(({ body }) => ({
    coupon: body.coupon,
    class: Number(body.tapeClass.charAt(0)),
    cut: body.tapeClass.charAt(1),
  }));
  const cuts = [...new Set(tests.map((test) => test.cut))];
  if (cuts.length > 1)
    throw new InputError("tapeClass", cuts, "one kind of cut in a trial: X-cuts (A) and cross-cuts (B) are two scales");
  const worst = [...groupedByCoupon(tests)].map(
    ([coupon, own]) =>
      [
        coupon,
        {
          value: worstClass(
            own.map((test) => test.class),
            tapeScaleEnds,
          ),
        },
      ] as const,
  );
  return {
    response,
    kind: "ordinal",
    unit: "classes",
    better: "higher",
    ratio: false,
    detectionLimitPercent: null,
    scale: tapeScaleEnds,
    data: new Map(worst),
    notes: [
      `Classes: ${tapeScaleEnds.best} is the best, ${tapeScaleEnds.worst} the worst.`,
      ...tapeTestNotes(tapeTests.map(({ body }) => body)),
    ],
  };
}
