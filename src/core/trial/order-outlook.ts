/** What a plan can show of a declared order, by its layout alone. */
import { orderedRearrangementTest } from "../statistics/ordered-rearrangement.ts";
import { largestTellingP } from "./comparable-treatments.ts";
import { orderWords } from "./order-trend.ts";
import type { Question } from "./question.ts";
import { comparedPairs, setUnits } from "./rearranged-sets.ts";
import { acceptedBySpread } from "./spread-acceptance.ts";
import { trialLayout, unitsOfReplication } from "./units-of-replication.ts";
import { reaches, verdictLevels } from "./verdict.ts";

/** The best verdict that the layout leaves open, and why. */
export function orderOutlook(
  question: Question,
  order: readonly string[],
): { sentence: string; atBest: "shown" | "suggested" | "cannot be told" } {
  const layout = trialLayout(question);
  const pairs = comparedPairs(order, "pairs");
  const units = unitsOfReplication(question, layout, { treatments: order, pairs });
  const n = order.map((name) => units.filter((unit) => unit.treatment === name).length);
  const names = `the order ${orderWords(order.map((name) => `"${name}"`))}`;
  const counted = `${n.join(", ")} units`;
  if (pairs.some((pair) => layout.pair(...pair).batch?.case === "each has one"))
    return {
      atBest: "cannot be told",
      sentence: `About ${names} nothing can be told: treatments were each treated in one go.`,
    };
  if (Math.min(...n) <= 1)
    return {
      atBest: "cannot be told",
      sentence: `About ${names} nothing can be told: one unit is no repetition (${counted}).`,
    };
  const moved = setUnits(question, layout, order, "pairs");
  const scores = moved.map(({ treatment, block, plot }, score) => ({
    score,
    group: order.indexOf(treatment),
    block,
    plot,
  }));
  const accepts = acceptedBySpread(question, moved, order);
  const { pMin } = orderedRearrangementTest(scores, { accepts, seed: question.seed });
  const seldom = `even the clearest order would come by chance once in ${Math.round(1 / pMin)} trials (${counted})`;
  if (!reaches(pMin, largestTellingP))
    return { atBest: "cannot be told", sentence: `About ${names} nothing can be told: ${seldom}.` };
  if (!reaches(pMin, verdictLevels.shown) || Math.min(...n) === 2)
    return {
      atBest: "suggested",
      sentence: `${capital(names)} can be suggested at best, not shown: ${reaches(pMin, verdictLevels.shown) ? `two units of a treatment (${counted})` : seldom}.`,
    };
  return {
    atBest: "shown",
    sentence: `${capital(names)} can be shown to matter, if it does so clearly enough (${counted}).`,
  };
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
