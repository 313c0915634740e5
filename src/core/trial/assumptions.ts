/** What a table cannot say is assumed, and said. The user takes an assumption back; then that is said. */
import type { Question } from "./question.ts";

export type Assumptions = Pick<Question, "randomised" | "blind" | "declared" | "treatedSeparately">;

/** `from`: a plan says itself what a table leaves to be assumed. */
export function assumptionNotes(
  { randomised, blind, declared, treatedSeparately }: Assumptions,
  from: "table" | "plan",
): string[] {
  const assumed = (note: string) => (from === "table" ? [note] : []);
  return [
    ...(randomised
      ? assumed("Assumed: lots were drawn for which coupon got which treatment.")
      : ["Coupons were not allotted by lot: nothing here gets more than suggested."]),
    ...(blind
      ? assumed("Assumed: whoever judged did not know the treatment.")
      : ["Judged with the treatment known: nothing here gets more than suggested."]),
    ...(declared
      ? assumed("Assumed: the question was declared before the first look.")
      : ["Exploratory: not declared before the first look, so nothing here gets more than suggested."]),
    ...separateNotes(treatedSeparately, from),
  ];
}

function separateNotes(treatedSeparately: Question["treatedSeparately"], from: "table" | "plan"): string[] {
  if (treatedSeparately === "recorded") return [];
  if (treatedSeparately === "confirmed") return ["Each coupon was treated separately, as you said."];
  const remedy =
    from === "table"
      ? "A column batch would say who went together."
      : "It was planned so, but not written down for every coupon.";
  return [`Assumed: each coupon was treated separately, with its own dip or wipe. ${remedy}`];
}
