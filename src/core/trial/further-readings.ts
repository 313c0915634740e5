/**
 * Several readings of one coupon become one, since the coupon is what was treated: the second run counts for its precision, never as
 * another coupon.
 *
 * Units    as read
 * Source   rules of this project: subsamples are averaged first; of classes the worse middle one counts, of yes and no the worse
 * Status   common practice
 */
import { group, mean } from "d3-array";
import type { ValueResponse } from "./declared-question.ts";
import type { MeasuredValue, WearTest } from "./trial-record.ts";

/** Mean of both ends; one run that never wore through leaves the mean without a right end. */
export function strokesOfCoupons(tests: readonly WearTest[]): { coupon: string; left: number; right: number | null }[] {
  return [...group(tests, ({ coupon }) => coupon)].map(([coupon, own]) => {
    const rights = own.flatMap(({ rightStrokes }) => rightStrokes ?? []);
    return {
      coupon,
      left: mean(own, ({ leftStrokes }) => leftStrokes)!,
      right: rights.length === own.length ? mean(rights)! : null,
    };
  });
}

/** Mean (of ratios the geometric one), worse middle class, or the worse of yes and no; in the values' own unit. */
export function valuesOfCoupons(
  values: readonly MeasuredValue[],
  asked: Pick<ValueResponse, "kind" | "better" | "ratio">,
): { coupon: string; value: number }[] {
  return [...group(values, ({ coupon }) => coupon)].map(([coupon, own]) => ({
    coupon,
    value: oneOf(
      own.map(({ value }) => value),
      asked,
    ),
  }));
}

function oneOf(
  values: readonly number[],
  { kind, better, ratio }: Pick<ValueResponse, "kind" | "better" | "ratio">,
): number {
  if (kind === "continuous" && ratio && values.every((value) => value > 0))
    return values.length === 1 ? values[0]! : Math.exp(mean(values, Math.log)!);
  if (kind === "continuous" || kind === "area") return mean(values)!;
  const worstFirst = values.toSorted((one, other) => (better === "higher" ? one - other : other - one));
  return worstFirst[kind === "binary" ? 0 : (values.length - 1) >> 1]!;
}

/** "Coupon 3: mean of 2 readings." and so on, for whoever reads the answer. */
export function furtherReadingNotes(readings: readonly { coupon: string }[]): string[] {
  return [...group(readings, ({ coupon }) => coupon)].flatMap(([coupon, own]) =>
    own.length > 1 ? [`Coupon ${coupon}: ${own.length} readings taken together as one.`] : [],
  );
}
