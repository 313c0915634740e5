/** Whether a verdict hangs on coupons that left a window: the question is computed again without them. */
import type { Analysis, Compared } from "./analysis.ts";
import type { Question } from "./question.ts";
import { comparesRatios, scaledMargin } from "./scaled-margin.ts";
import type { Unit } from "./units-of-replication.ts";
import { type Cap, reaches, saysLess, verdictLevels } from "./verdict.ts";

/** The question without the units that a deviation touched; null: none was. The same deviation on every unit of a trial stays. */
export function withoutDeviating(question: Question, units: readonly Unit[]): Question | null {
  if (sameOnAll(units)) return null;
  const touched = new Set(units.filter(deviates).flatMap((unit) => unit.coupons.map(({ coupon }) => coupon)));
  if (touched.size === 0) return null;
  return { ...question, coupons: question.coupons.filter(({ coupon }) => !touched.has(coupon)) };
}

function deviates(unit: Unit): boolean {
  return unit.coupons.some((coupon) => coupon.deviation !== null);
}

/** It then bounds what the trial speaks for, and favours none. */
function sameOnAll(units: readonly Unit[]): boolean {
  const kinds = new Set(units.flatMap((unit) => unit.coupons.map((coupon) => coupon.deviation)));
  return kinds.size === 1;
}

/** A pair is compared with itself in the reduced trial. `said`: what is told without a cap. */
export function deviationInfluence(
  question: Question,
  row: Compared,
  reduced: Analysis,
): { cap: Cap | null; said: string | null } {
  const nothing = { cap: null, said: null };
  const own = row.units.flat();
  const touched = own.filter(deviates);
  if (touched.length === 0 || sameOnAll(own)) return nothing;
  const again = reduced.rows.find((one) => one.first === row.first && one.second === row.second);
  const cap = (reason: string) => ({
    cap: { atMost: "suggested" as const, reason, againstEquivalence: true },
    said: null,
  });
  if (!again || again.effect === null) {
    const reason = `without ${couponWords(touched)} too few are left to look at it again`;
    return touched.length > own.length / 4 ? cap(reason) : { cap: null, said: reason };
  }
  const tells = again.pMin === null || reaches(again.pMin, verdictLevels.shown);
  const falls = tells && row.verdict === "shown" && saysLess(again.verdict, row.verdict);
  // Too few are left for a p that could show it: then a change of sides counts, however small.
  const turns = !tells && row.better !== again.better;
  return falls || turns || effectMoves(question, row, again) ? cap(`this hangs on ${couponWords(touched)}`) : nothing;
}

/** By more than half the margin, or without one out of the interval of all units. */
function effectMoves(question: Question, row: Compared, again: Compared): boolean {
  const [before, after] = [row.effect?.value ?? null, again.effect?.value ?? null];
  if (before === null || after === null) return false;
  const margin = scaledMargin(question);
  if (margin === null) {
    const { lower, upper } = row.effect!;
    return (lower !== null && after < lower) || (upper !== null && after > upper);
  }
  const scale = (value: number) => {
    if (!comparesRatios(question) || row.effect!.name === "Cliff's delta") return value;
    return question.kind === "area" ? Math.log10(value) : Math.log(value);
  };
  return Math.abs(scale(after) - scale(before)) > margin / 2;
}

function couponWords(units: readonly Unit[]): string {
  const coupons = units.flatMap((unit) => unit.coupons).filter((coupon) => coupon.deviation !== null);
  const names = coupons.map(({ coupon }) => coupon);
  const what = [...new Set(coupons.map(({ deviation }) => deviation))].join("; ");
  const word =
    names.length === 1 ? `coupon ${names[0]}` : `coupons ${names.slice(0, -1).join(", ")} and ${names.at(-1)}`;
  return `${word}, which deviated: ${what}`;
}
