/** What else the difference of a comparison could come from: caps of the audit, and the verdict that stands after them. */
import type { Compared } from "./analysis.ts";
import { type Aliased, confoundingOf } from "./confounding-audit.ts";
import type { Question } from "./question.ts";
import { retestedVerdict } from "./retested-verdict.ts";
import { type Cap, saysLess, verdictOf } from "./verdict.ts";

/** A comparison with its tests and the caps met so far. */
export type Audited = Pick<
  Compared,
  "first" | "second" | "units" | "layout" | "n" | "p" | "pAdjusted" | "equivalence" | "caps"
>;

/** Every cap in the order met, `further` ones last; the lowest verdict, and why it fell where it did. The audit never raises one. */
export function auditedVerdict(question: Question, row: Audited, further: readonly Cap[]) {
  const aliased = confoundingOf(question, row);
  const caps = [...row.caps, ...aliased.flatMap((one) => aliasCaps(row, one)), ...further];
  const verdict = verdictOf({ ...row, caps });
  const partly = aliased.filter((one) => one.how === "partly");
  const fallen = partly.flatMap((one) => {
    const again = retestedVerdict(question, { ...row, caps, verdict }, one.levels);
    return again === null ? [] : [{ ...again, remark: `within the levels of ${one.circumstance} it is less clear` }];
  });
  const lowest = fallen.reduce((lower, one) => (saysLess(one.verdict, lower) ? one.verdict : lower), verdict);
  // What takes every word away is the reason that the sentence gives.
  const silencing = fallen.flatMap((one) => one.caps.filter((cap) => cap.atMost === "cannot be told"));
  return { aliased, caps: [...caps, ...silencing], verdict: lowest, remarks: fallen.map((one) => one.remark) };
}

/** The batch of a differing step is capped by the rules of the units already. */
function aliasCaps(row: Audited, one: Aliased): Cap[] {
  if (one.how === "partly" || one.circumstance === row.layout.batch?.step) return [];
  const fully = one.how === "fully";
  const reason = fully ? apartWords(row, one) : `${one.circumstance} differs almost as the treatments do`;
  return [{ atMost: fully ? "cannot be told" : "suggested", reason, againstEquivalence: true }];
}

/** "every wax was site shed and no oil was": from the side that has a single level. */
export function apartWords(
  { first, second, units }: Pick<Audited, "first" | "second" | "units">,
  { circumstance, levels }: Pick<Aliased, "circumstance" | "levels">,
): string {
  const own = [...new Set(levels.slice(0, units[0].length))];
  const other = [...new Set(levels.slice(units[0].length))];
  const [all, none, level] = own.length === 1 ? [first, second, own[0]] : [second, first, other[0]];
  return `every ${all} was ${circumstance} ${level} and no ${none} was`;
}
