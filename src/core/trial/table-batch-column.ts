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
  const batches = new Map<string, string>();
  for (const treatment of question.treatments) {
    const own = compared.filter((one) => one.treatment === treatment);
    const coupons = own.map((one) => one.coupon);
    const its = inBatches.filter(({ step }) => own.some((one) => (one.applications[step] ?? null) !== null));
    const shapes = new Set(its.map(({ groups }) => shapeOf(within(groups, coupons))));
    const leading = its[0];
    for (const { coupon, applications } of own) {
      if (!steps.some((step) => (applications[step] ?? null) !== null)) continue;
      // Steps that group a treatment's coupons in two ways: who is joined by any of them is one batch, so that the table never says more.
      const together =
        shapes.size > 1
          ? joinedWith(coupon, coupons, its)
          : (leading?.groups.get(applications[leading.step] ?? "") ?? [coupon]);
      batches.set(coupon, nameOf(together));
    }
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

const within = (groups: ReadonlyMap<string, string[]>, coupons: readonly string[]): Map<string, string[]> =>
  new Map(
    [...groups]
      .map(([go, all]) => [go, all.filter((coupon) => coupons.includes(coupon))] as const)
      .filter(([, some]) => some.length > 0),
  );

/** All of these coupons that hang together with one, through any of the steps. In the order of the trial. */
function joinedWith(
  coupon: string,
  coupons: readonly string[],
  goes: readonly { groups: Map<string, string[]> }[],
): string[] {
  const groups = goes.flatMap((one) => [...within(one.groups, coupons).values()]);
  const joined = new Set([coupon]);
  for (let before = 0; before < joined.size; ) {
    before = joined.size;
    for (const group of groups) if (group.some((one) => joined.has(one))) for (const one of group) joined.add(one);
  }
  return coupons.filter((one) => joined.has(one));
}

/** Which coupons went together, whatever their goes are called. */
const shapeOf = (groups: ReadonlyMap<string, string[]>): string =>
  JSON.stringify([...groups.values()].map((coupons) => [...coupons].sort()).sort());

const nameOf = (coupons: readonly string[]): string => `with ${coupons[0]}`;
