/** What colour readings say, coupon by coupon: how dark, how even, how much it changed; only what can be compared. */
import { group, mean, median } from "d3-array";
import { InputError } from "../input-error.ts";
import { deltaE2000 } from "../vision/colour-difference.ts";
import type { Lab } from "../vision/colour-lab.ts";
import { onScaleOf } from "../vision/same-colour-scale.ts";
import type { SeenAs } from "./seen-as.ts";
import type { FinishColour, Observed, TrialRecord, When } from "./trial-record.ts";

export type ColourResult = { coupon: string; value: number; from: Observed<FinishColour> };

/**
 * One value per coupon from the readings in that state: lightness and unevenness from its first date (the mean of that date's
 * readings), change from its first date to its last. L*, or CIEDE2000.
 *
 * All lightnesses stand on one scale: the median of the readings' own patches. A change stands on the scale of the first date.
 */
export function colourResults(record: TrialRecord, { of, state }: SeenAs): ColourResult[] {
  const readings = record.finishColours.filter(({ body }) => body.state === state);
  const byCoupon = group(readings, ({ body }) => body.coupon);
  const firsts = [...byCoupon.values()].map((own) => onDate(own, "first"));
  if (of === "change")
    return [...byCoupon].flatMap(([coupon, own]) => {
      const [first, last] = [onDate(own, "first"), onDate(own, "last")];
      if (sameDate(first[0]!.body.when, last[0]!.body.when)) return [];
      const patches = first[0]!.body.reading.patches;
      return [
        {
          coupon,
          value: deltaE2000({ first: meanLab(first, patches), second: meanLab(last, patches) }),
          from: last[0]!,
        },
      ];
    });
  const patches = of === "lightness" ? medianPatches(firsts.flat()) : [];
  return firsts.map((own) => ({
    coupon: own[0]!.body.coupon,
    value: of === "lightness" ? meanLab(own, patches).lStar : mean(own, ({ body }) => body.reading.lightnessSd)!,
    from: own[0]!,
  }));
}

/** What a reader of the answer must know: coupons with one date only, and how far the photographs' tones lay apart. */
export function colourNotes(record: TrialRecord, { of, state }: SeenAs): string[] {
  const readings = record.finishColours.filter(({ body }) => body.state === state);
  const others = record.finishColours.filter(({ body }) => body.state !== state);
  const notes: string[] = [];
  if (others.length > 0)
    notes.push(
      `Read ${state} only; ${others.length} reading${others.length === 1 ? "" : "s"} in another state left out.`,
    );
  const told = new Set(colourResults(record, { of, state }).map(({ coupon }) => coupon));
  const once = [...new Set(readings.map(({ body }) => body.coupon))].filter((coupon) => !told.has(coupon));
  if (once.length > 0) notes.push(`Coupon ${once.join(", ")}: read on one date only, which tells no change.`);
  const apart = patchesApart(readings);
  if (apart > tonesApart && of !== "unevenness")
    notes.push(
      `The card's grey patches lay up to ${apart.toFixed(0)} L* apart between photographs; the colours were set to one scale by them, which takes out most of it and not all.`,
    );
  return notes;
}

/** L*; less is what any two photographs differ by. */
const tonesApart = 4;

/** Refuses readings of two cards: their patches are not the same print. */
export function requireSamePatches(record: TrialRecord, { reading }: FinishColour): void {
  const other = record.finishColours.find(({ body }) => body.reading.patches.length !== reading.patches.length);
  if (other)
    throw new InputError(
      "reading.patches",
      reading.patches.length,
      `${other.body.reading.patches.length}, as in the other readings`,
    );
}

function onDate(own: readonly Observed<FinishColour>[], which: "first" | "last"): Observed<FinishColour>[] {
  const sorted = own.toSorted((one, other) => compareWhen(one.body.when, other.body.when));
  const { when } = sorted.at(which === "first" ? 0 : -1)!.body;
  return sorted.filter(({ body }) => sameDate(body.when, when));
}

const dateOf = (when: When): string => ("date" in when ? when.date : String(when.day).padStart(6, "0"));
const sameDate = (one: When, other: When) => dateOf(one) === dateOf(other);
const compareWhen = (one: When, other: When) =>
  dateOf(one) < dateOf(other) ? -1 : dateOf(one) > dateOf(other) ? 1 : 0;

function meanLab(readings: readonly Observed<FinishColour>[], patches: readonly Lab[]): Lab {
  const labs = readings.map(({ body: { reading } }) =>
    onScaleOf({ lab: reading.lab, patches: reading.patches, other: patches }),
  );
  const of = (part: keyof Lab) => mean(labs, (lab) => lab[part])!;
  return { lStar: of("lStar"), aStar: of("aStar"), bStar: of("bStar") };
}

function medianPatches(readings: readonly Observed<FinishColour>[]): Lab[] {
  const all = readings.map(({ body }) => body.reading.patches);
  return (all[0] ?? []).map((_, at) => {
    const of = (part: keyof Lab) => median(all, (patches) => patches[at]![part])!;
    return { lStar: of("lStar"), aStar: of("aStar"), bStar: of("bStar") };
  });
}

function patchesApart(readings: readonly Observed<FinishColour>[]): number {
  const all = readings.map(({ body }) => body.reading.patches.map(({ lStar }) => lStar));
  const spreads = (all[0] ?? []).map((_, at) => {
    const values = all.map((patches) => patches[at]!);
    return Math.max(...values) - Math.min(...values);
  });
  return Math.max(0, ...spreads);
}
