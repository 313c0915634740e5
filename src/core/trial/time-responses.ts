/** From looks to times: first rust of each coupon, and what was noticed on the way. */
import { InputError } from "../input-error.ts";
import { firstRust } from "./first-rust.ts";
import type { LookSeries } from "./look-series.ts";
import type { TimeDatum } from "./question.ts";

export type Responses<Datum> = { data: Map<string, Datum>; notes: string[] };

/** Days. `isRusted` judges one reading; the worst face counts. */
export function timesToFirstRust(
  series: readonly LookSeries[],
  isRusted: (reading: number) => boolean,
): Responses<TimeDatum> {
  const data = new Map<string, TimeDatum>();
  const notes: string[] = [];
  for (const { coupon, looks, takenDown } of series) {
    const seen = looks.map(({ day, readings }) => ({ day, rusted: readings.some(isRusted) }));
    const { datum, vanishedOnDays, rustedOnDay0 } = firstRust(withState(seen, takenDown));
    if (rustedOnDay0)
      throw new InputError(
        "coupon",
        coupon,
        "a coupon without rust on day 0: a time to first rust starts clean. If it was put out earlier, say when",
        "from",
      );
    if (datum) data.set(coupon, datum);
    else notes.push(`Coupon ${coupon} carries nothing: no look at it after day 0. It was left out.`);
    if (vanishedOnDays.length > 0)
      notes.push(
        `Coupon ${coupon}: rust seen on day ${vanishedOnDays.join(", ")} was gone at a later look; it was not counted.`,
      );
    if (takenDown) notes.push(takenDownNote(coupon, takenDown));
  }
  return { data, notes };
}

/** Taken down for its state, a coupon counts as rusted on that day, whatever was read. */
function withState(looks: { day: number; rusted: boolean }[], takenDown: LookSeries["takenDown"]) {
  if (!takenDown?.forItsState) return looks;
  return [...looks.filter((look) => look.day < takenDown.day), { day: takenDown.day, rusted: true }];
}

function takenDownNote(coupon: string, { day, reason, forItsState }: NonNullable<LookSeries["takenDown"]>): string {
  return forItsState
    ? `Coupon ${coupon} was taken down on day ${day} for its state (${reason}): it counts as rusted from then on.`
    : `Coupon ${coupon} was taken down on day ${day} (${reason}): until then it counts, later nothing is known of it.`;
}
