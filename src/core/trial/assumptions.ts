/** What a table cannot say is assumed, and said. The user takes an assumption back; then that is said. */
import type { Question } from "./question.ts";

export type Assumptions = Pick<Question, "randomised" | "blind" | "declared" | "treatedSeparately">;

export function assumptionNotes({ randomised, blind, declared, treatedSeparately }: Assumptions): string[] {
  return [
    randomised
      ? "Assumed: lots were drawn for which coupon got which treatment (otherwise --not-randomised)."
      : "Coupons were not allotted by lot: nothing here gets more than suggested.",
    blind
      ? "Assumed: whoever judged did not know the treatment (otherwise --not-blind)."
      : "Judged with the treatment known: nothing here gets more than suggested.",
    declared
      ? "Assumed: the question was declared before the first look (otherwise --exploratory)."
      : "Exploratory: not declared before the first look, so nothing here gets more than suggested.",
    ...separateNotes[treatedSeparately],
  ];
}

const separateNotes = {
  assumed: [
    "Assumed: each coupon was treated separately, with its own dip or wipe. A column batch says who went together; --treated-separately confirms it.",
  ],
  confirmed: ["Each coupon was treated separately, as you said."],
  recorded: [],
} as const satisfies Record<Question["treatedSeparately"], readonly string[]>;
