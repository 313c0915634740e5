/** The steps in which treatments differ, folded into the one column `batch` of a plain table. */
import type { Question, QuestionCoupon } from "./question.ts";
import { differingSteps, tableBatchStep } from "./trial-applications.ts";

export type BatchColumn = {
  /** By coupon; a coupon that skips the steps in which treatments differ has none. */
  batches: ReadonlyMap<string, string>;
  /** Steps done in batches that group the coupons differently: one column cannot say both. */
  severalSteps: string[];
};

/**
 * Coupons that went through a differing step together share a batch; one treated alone has a batch of its own; one that skips
 * them all has none. Where every coupon was alone or skips, there is no column: "each treated separately" says it.
 */
export function batchColumn(question: Question): BatchColumn {
  const compared = question.coupons.filter((one) => question.treatments.includes(one.treatment));
  const steps = question.routes
    ? differingSteps(question.treatments.map((name) => question.routes?.[name] ?? []))
    : [tableBatchStep];
  const goes = steps.map((step) => ({ step, groups: groupsOf(compared, step) }));
  const inBatches = goes.filter(({ groups }) => [...groups.values()].some((coupons) => coupons.length > 1));
  const kinds = new Set(inBatches.map(({ groups }) => shapeOf(groups)));
  if (inBatches.length === 0 && question.routes) return { batches: new Map(), severalSteps: [] };
  const leading = inBatches[0];
  const batches = new Map<string, string>();
  for (const { coupon, applications } of compared) {
    const together = leading ? applications[leading.step] : null;
    const alone = steps.some((step) => (applications[step] ?? null) !== null);
    if (together != null) batches.set(coupon, nameOf(leading?.groups.get(together) ?? [coupon]));
    else if (alone) batches.set(coupon, nameOf([coupon]));
  }
  return { batches, severalSteps: kinds.size > 1 ? inBatches.map(({ step }) => step) : [] };
}

function groupsOf(coupons: readonly QuestionCoupon[], step: string): Map<string, string[]> {
  const groups = new Map<string, string[]>();
  for (const { coupon, applications } of coupons) {
    const application = applications[step] ?? null;
    if (application !== null) groups.set(application, [...(groups.get(application) ?? []), coupon]);
  }
  return groups;
}

/** Which coupons went together, whatever their goes are called. */
const shapeOf = (groups: ReadonlyMap<string, string[]>): string =>
  JSON.stringify([...groups.values()].map((coupons) => [...coupons].sort()).sort());

const nameOf = (coupons: readonly string[]): string => `with ${coupons[0]}`;
