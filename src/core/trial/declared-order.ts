/** A question asked of treatments in an order that was declared beforehand. */
import { InputError } from "../input-error.ts";
import { sameName } from "./plain-table.ts";
import type { Question } from "./question.ts";

/** Names match without regard to case and outer spaces; three or more, each once. */
export function inOrder(question: Question, names: readonly string[]): Question {
  const order = names.map((name) => {
    const found = question.treatments.find((treatment) => sameName(treatment, name));
    if (found === undefined) throw new InputError("order", name, `one of ${question.treatments.join(", ")}`);
    return found;
  });
  if (order.length < 3 || new Set(order).size !== order.length)
    throw new InputError("order", names.join(","), "three treatments or more, each once");
  return { ...question, order };
}
