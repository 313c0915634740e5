/** The margin on the scale on which a response is compared. */
import { InputError } from "../input-error.ts";
import type { Question } from "./question.ts";

/** Whether two treatments are compared by their ratio. */
export function comparesRatios({ kind, ratio }: Pick<Question, "kind" | "ratio">): boolean {
  return kind === "time" || kind === "area" || (kind === "continuous" && ratio);
}

/** ln of a factor for times and ratios, log10 for areas, else the margin itself; null: none was stated. */
export function scaledMargin(question: Question): number | null {
  const { kind, margin } = question;
  if (margin === null) return null;
  if (!comparesRatios(question)) {
    if (!(margin > 0)) throw new InputError("margin", margin, "a difference above 0");
    if (kind === "binary" && margin >= 1) throw new InputError("margin", margin, "a difference of shares below 1");
    return margin;
  }
  if (!(margin > 1)) throw new InputError("margin", margin, "a factor above 1");
  return kind === "area" ? Math.log10(margin) : Math.log(margin);
}
