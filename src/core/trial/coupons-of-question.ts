/** Which coupons answer a question: those that the plan keeps for the test that uses them up, or those that hang. */
import { InputError } from "../input-error.ts";
import type { CouponPlace, DestructiveTest } from "./coupon-place.ts";
import type { DeclaredQuestion } from "./declared-question.ts";

/** The test that a question is answered from and that uses a coupon up; null: none does. */
export function usedUpBy(declared: DeclaredQuestion): DestructiveTest | null {
  if (declared.response === "tape class") return "tape test";
  return declared.response === "value" && declared.weighed === "stripping" ? "weighing by stripping" : null;
}

/** The test whose own coupons answer this question; null: the plan keeps none for it, and those that hang answer. */
export function ownTest(places: readonly CouponPlace[], declared: DeclaredQuestion): DestructiveTest | null {
  const test = usedUpBy(declared);
  return test !== null && places.some(({ keptFor }) => keptFor === test) ? test : null;
}

const readOutdoors: readonly DeclaredQuestion["response"][] = ["time to first rust", "rusted area", "grade"];

/** Refuses to strip the coupons that are to go out: what has lost its coating says nothing of it outdoors. */
export function requireOwnToStrip(
  questions: readonly DeclaredQuestion[],
  testCoupons: readonly { test: DestructiveTest; ofEach: number }[],
): void {
  const strips = questions.some((one) => usedUpBy(one) === "weighing by stripping");
  const goesOut = questions.some(({ response }) => readOutdoors.includes(response));
  if (strips && goesOut && !testCoupons.some(({ test }) => test === "weighing by stripping"))
    throw new InputError(
      "testCoupons.stripped",
      0,
      "3 or more coupons of each of their own: stripping takes the coating off, so the ones that go out cannot be stripped",
    );
}
