/** Which treatments a question compares with which, in words. */
import type { DeclaredQuestion } from "./declared-question.ts";
import { orderWords } from "./order-trend.ts";

type FamilyOrOrder = { family: DeclaredQuestion["family"]; order?: readonly string[] | undefined };

/** "against the control", "all pairs" or the order itself: what stands behind the name of a response in a heading. */
export function familyWords({ family, order }: FamilyOrOrder): string {
  if (order !== undefined) return `in the order ${orderWords(order)}`;
  return family === "control" ? "against the control" : "all pairs";
}
