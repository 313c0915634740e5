/** Words of what a plan can show. The sentences about each comparison come from the plan itself. */
import type { ComparisonOutlook } from "../../core/trial/plan-outlook.ts";
import { counted } from "./parts.ts";

export const outlookText = {
  count: (atBest: readonly ComparisonOutlook["atBest"][]) => {
    const can = atBest.filter((one) => one === "shown").length;
    if (atBest.length === 0) return "There is nothing to compare.";
    if (can === 0) return "As planned, nothing can be shown.";
    if (atBest.length === 1) return "1 comparison, and it could be shown.";
    return can === atBest.length
      ? `${counted(can, "comparison")}, and each could be shown.`
      : `${can} of ${counted(atBest.length, "comparison")} could be shown.`;
  },
  units: ({ first, second, unitSentences: [one, other] }: ComparisonOutlook) =>
    `${first}: ${one}; ${second}: ${other}.`,
  whyOf: (first: string, second: string) => `what can be shown of ${first} against ${second}`,
  why: ({ n, pMin }: ComparisonOutlook) => [
    `Counted are units, what was treated separately: ${n[0]} against ${n[1]}.`,
    pMin >= 1
      ? "With one unit on a side every arrangement is alike: no result could be told from chance."
      : `Were the treatments alike, the clearest possible result would still come up by chance in ${shareText(pMin)} of such draws. A difference is shown at 5 % or less.`,
    "Rearrangement of whole units within blocks; whether a difference is large enough to be seen depends on the coupons.",
  ],
  proposals: "What would tell more",
  looks: "About the looks",
  single: "Make the differing steps single",
};

/** A probability as a percent, with two digits. */
function shareText(p: number): string {
  const percent = p * 100;
  return percent < 0.01 ? "less than 0.01 %" : `${Number(percent.toPrecision(2))} %`;
}
