/** Agreement of any number of graders, missing ratings allowed. */
import { InputError, requireFinite, requireList, requireOneOf } from "../input-error.ts";
import { sum } from "./moments.ts";

const levels = ["nominal", "ordinal", "interval"] as const;
export type Level = (typeof levels)[number];

/**
 * Krippendorff's alpha.
 *
 * Method   agreement.krippendorffAlpha
 * Formula  1 - observed / expected disagreement from the coincidence matrix; squared distance 0/1 ("nominal"), of the ranks'
 *          marginals ("ordinal"), of the values ("interval")
 * Units    ratings: one array per grader, null where not rated; pairableValues counts ratings of coupons rated twice or more
 * Source   Krippendorff 2004; its usual example of four observers reproduces
 * Status   computed
 * Holds    for few coupons only roughly; no interval is given
 * Refuses  one grader; unequal lengths; nothing rated twice; ratings that do not vary; another level
 */
export function krippendorffAlpha({ ratings, level }: { ratings: (number | null)[][]; level: Level }): {
  alpha: number;
  pairableValues: number;
} {
  requireOneOf("level", level, levels);
  const units = pairableUnits(ratings);
  const all = units.flat();
  if (all.length === 0) throw new InputError("ratings", ratings, "at least one coupon rated twice");
  const values = [...new Set(all)].sort((a, b) => a - b);
  if (values.length < 2) throw new InputError("ratings", ratings, "ratings that vary: alpha is not defined");
  const counts = values.map((value) => all.filter((one) => one === value).length);
  const distance = squaredDistance(level, values, counts);
  const places = new Map(values.map((value, at) => [value, at]));
  const disagreement = (unit: readonly number[]) =>
    sum(unit.flatMap((a) => unit.map((b) => distance(places.get(a)!, places.get(b)!))));
  const observed = sum(units.map((unit) => disagreement(unit) / (unit.length - 1)));
  const expected = sum(values.flatMap((_, a) => values.map((_, b) => counts[a]! * counts[b]! * distance(a, b))));
  return { alpha: 1 - (observed * (all.length - 1)) / expected, pairableValues: all.length };
}

/** The ratings of each coupon that was rated at least twice. */
function pairableUnits(ratings: (number | null)[][]): number[][] {
  requireList("ratings", ratings, 2);
  for (const [at, grader] of ratings.entries()) {
    requireList(`ratings[${at}]`, grader);
    if (grader.length !== ratings[0]!.length)
      throw new InputError(`ratings[${at}]`, grader, `as many coupons as the first grader, ${ratings[0]!.length}`);
    for (const [coupon, rating] of grader.entries())
      if (rating !== null) requireFinite(`ratings[${at}][${coupon}]`, rating);
  }
  return ratings[0]!
    .map((_, coupon) => ratings.map((grader) => grader[coupon] ?? null).filter((rating) => rating !== null))
    .filter((unit) => unit.length >= 2);
}

function squaredDistance(level: Level, values: readonly number[], counts: readonly number[]) {
  return (a: number, b: number): number => {
    if (a === b) return 0;
    if (level === "nominal") return 1;
    if (level === "interval") return (values[a]! - values[b]!) ** 2;
    const [from, to] = a < b ? [a, b] : [b, a];
    return (sum(counts.slice(from, to + 1)) - (counts[from]! + counts[to]!) / 2) ** 2;
  };
}
