/** What a unit will be, in the words of the bench: "6 units: six single goes (paste wax)". */
import type { Plan, RouteStep } from "./trial-record.ts";
import type { Unit } from "./units-of-replication.ts";

const numberWords = [
  "no",
  "one",
  "two",
  "three",
  "four",
  "five",
  "six",
  "seven",
  "eight",
  "nine",
  "ten",
  "eleven",
  "twelve",
];

export const inWords = (number: number): string => numberWords[number] ?? String(number);

/** For one treatment of a pair: how many units, and why so many. */
export function unitWords(
  { treatments }: Plan,
  { treatment, partner, units }: { treatment: string; partner: string; units: readonly Unit[] },
): string {
  const routeOf = (name: string): readonly RouteStep[] => treatments.find((one) => one.name === name)?.route ?? [];
  const others = routeOf(partner).map((step) => step.name);
  const own = routeOf(treatment).filter((step) => !others.includes(step.name));
  const coupons = units.reduce((sum, unit) => sum + unit.coupons.length, 0);
  const count = `${units.length} ${units.length === 1 ? "unit" : "units"}`;
  const together = own.filter((step) => step.treated === "together").map((step) => step.name);
  if (units.length === 1 && coupons > 1)
    return `${count}: all ${inWords(coupons)} in one go (${together.join(", ")}), so nothing can be told`;
  if (units.length === 1) return `${count}: one coupon, so nothing can be told`;
  if (together.length > 0 && units.length < coupons && units.every((unit) => unit.coupons.length > 1))
    return `${count}: ${inWords(units.length)} batches (${together.join(", ")}), ${inWords(coupons)} coupons in all`;
  if (together.length > 0 && units.length > 1 && isOwnBatch(units))
    return `${count}: ${inWords(units.length)} batches of one coupon (${together.join(", ")})`;
  if (together.length > 0) return `${count}: ${inWords(coupons)} coupons of one batch (${together.join(", ")})`;
  if (own.length === 0) return `${count}: ${inWords(coupons)} coupons that skip what "${partner}" gets`;
  return `${count}: ${inWords(units.length)} single goes (${own.map((step) => step.name).join(", ")})`;
}

/** Each unit went through a planned batch that no other did. */
function isOwnBatch(units: readonly Unit[]): boolean {
  const batches = units.map((unit) => unit.coupons[0]?.plot);
  return batches.every((batch, at) => batch !== undefined && batches.indexOf(batch) === at);
}
