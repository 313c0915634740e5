/** The coupons of a draft that one question reads: those put out, or those that the tape test uses up. */
import type { DeclaredQuestion } from "./declared-question.ts";
import type { DrawablePlan } from "./draw-plan.ts";

type Drafted = Pick<DrawablePlan, "treatments" | "testCoupons">;
type Response = Pick<DeclaredQuestion, "response">;

/** Whether coupons are kept for this question's own test. */
export function hasOwnCoupons({ testCoupons = [] }: Pick<Drafted, "testCoupons">, { response }: Response): boolean {
  return response === "tape class" && testCoupons.some((one) => one.test === "tape test");
}

/** So many of each treatment that is compared, in the draft's order. */
export function readCoupons(draft: Drafted, declared: Response): number[] {
  const compared = draft.treatments.filter((one) => one.role !== "witness");
  const own = hasOwnCoupons(draft, declared) ? draft.testCoupons?.find((one) => one.test === "tape test") : undefined;
  return compared.map((one) => own?.ofEach ?? one.coupons);
}

/** The same draft with so many coupons of each treatment that the question compares. */
export function withCoupons(draft: DrawablePlan, each: number, declared: Response): DrawablePlan {
  if (hasOwnCoupons(draft, declared))
    return {
      ...draft,
      testCoupons: (draft.testCoupons ?? []).map((one) => (one.test === "tape test" ? { ...one, ofEach: each } : one)),
    };
  return {
    ...draft,
    treatments: draft.treatments.map((one) => (one.role === "witness" ? one : { ...one, coupons: each })),
  };
}
