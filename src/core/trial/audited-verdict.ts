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
    return again === null
      ? []
      : [{ verdict: again, remark: `within the levels of ${one.circumstance} it is less clear` }];
  });
  const lowest = fallen.reduce((lower, one) => (saysLess(one.verdict, lower) ? one.verdict : lower), verdict);
  return { aliased, caps, verdict: lowest, remarks: fallen.map((one) => one.remark) };
}

/** The batch of a differing step is capped by the rules of the units already. */
function aliasCaps(row: Audited, { circumstance, how }: Aliased): Cap[] {
  if (how === "partly" || circumstance === row.layout.batch?.step) return [];
  return how === "fully"
    ? [
        {
          atMost: "cannot be told",
          reason: `${row.first} and ${row.second} never shared one ${circumstance}`,
          againstEquivalence: true,
        },
      ]
    : [
        {
          atMost: "suggested",
          reason: `${circumstance} differs almost as the treatments do`,
          againstEquivalence: true,
        },
      ];
}
