/** What a simulated plan can show, as sentences: the same on the page, on paper and in the terminal. */
import type { AskedResponse, DeclaredQuestion } from "./declared-question.ts";
import { orderWords } from "./order-trend.ts";
import type { BetterOnes, PlanAssumptions } from "./plan-assumptions.ts";
import type { SimulatedChances, SimulatedShare } from "./simulation-tally.ts";
import { inWords } from "./unit-words.ts";

/** The chance at which a plan is usually called large enough. */
export const wantedChance = 0.8;
/** Planned looks may cost so much of the chance against daily ones before it is said. */
const dearLooks = 0.05;

/** A question with the order that it may have been declared with. */
type AskedQuestion = Pick<DeclaredQuestion, "order"> & AskedResponse;

export type Asked = {
  response: AskedQuestion;
  better: BetterOnes;
  /** Factor, or classes. */
  size: number;
  /** Coupons of each treatment that is compared. */
  each: number;
  /** Treatments other than the one they are compared with. */
  finishes: number;
};

/** "If every finish held rust off 3 times as long, 8 each would show it for each in 8 trials of 10 (79 %, give or take 2)...". */
export function chanceSentence(asked: Asked, { each, all }: Pick<SimulatedChances, "each" | "all">): string {
  if (each === null || all === null) return "Nothing differs in this truth: there is nothing to show.";
  const { order } = asked.response;
  if (order !== undefined)
    return `If every step of ${orderWords(order)} helped alike, so that ${order.at(-1)} ${deed(asked)}, ${asked.each} each would show the order ${trialsOfTen(each)} (${percentWords(each)}).`;
  const several = asked.better === "all" && asked.finishes > 1;
  const who = asked.finishes === 1 ? "the finish" : several ? "every finish" : "one finish";
  const which = several ? "it for each" : "it";
  const whole = several ? ` All of them at once: ${trialsOfTen(all)} (${percentWords(all)}).` : "";
  return `If ${who} ${deed(asked)}, ${asked.each} each would show ${which} ${trialsOfTen(each)} (${percentWords(each)}).${whole}`;
}

function deed({ response, size }: Asked): string {
  const classes = `came out ${size} ${size === 1 ? "class" : "classes"} better`;
  switch (response.response) {
    case "time to first rust":
      return `held rust off ${size} times as long`;
    case "strokes to breakthrough":
      return `stood up to ${size} times as many strokes`;
    case "rusted area":
      return `had ${size} times less rusted area`;
    case "tape class":
    case "grade":
      return classes;
    case "value": {
      const { kind, name, unit, ratio, better } = response;
      if (kind === "ordinal") return classes;
      if (kind === "area") return `had ${size} times less (${name})`;
      if (kind === "binary") return `did well on ${Math.round(100 * size)} more coupons in a hundred (${name})`;
      const how = ratio ? `${size} times` : `${size} ${unit}`.trim();
      return `came out ${how} ${better} (${name})`;
    }
  }
}

function trialsOfTen({ share }: SimulatedShare): string {
  if (share === 0) return "in no trial";
  const tenths = Math.round(10 * share);
  if (tenths === 0) return "hardly ever";
  if (share >= 0.985) return "in nearly every trial";
  return tenths === 10
    ? "in more than 9 trials of 10"
    : `in ${inWords(tenths)} ${tenths === 1 ? "trial" : "trials"} of 10`;
}

/** "79 %, give or take 2": two standard errors of the simulation, never less than a point. */
export function percentWords({ share, error }: SimulatedShare): string {
  return `${Math.round(100 * share)}\u00a0%, give or take ${Math.max(1, Math.round(200 * error))}`;
}

/** null: nothing to warn of. `planned` and `daily` are of the same truth, seeds and coupons. */
export function looksCostSentence(planned: SimulatedChances, daily: SimulatedChances): string | null {
  if (planned.each === null || daily.each === null) return null;
  const cost = daily.each.share - planned.each.share;
  if (cost <= dearLooks) return null;
  return `Looking every day would show it in ${Math.round(100 * daily.each.share)}\u00a0% instead of ${Math.round(100 * planned.each.share)}\u00a0%: the planned looks cost more than ${100 * dearLooks} points. Look more often while the control rusts.`;
}

/** What the simulation took for granted. */
export function assumptionWords(response: AskedQuestion, assumed: PlanAssumptions, blocked: boolean): string {
  const rest = [
    ...(blocked ? [`between blocks ${assumed.blockLogSd} (log)`] : []),
    `between goes that coupons share ${assumed.batchLogSd} (log)`,
    `${Number((100 * assumed.lostShare).toFixed(1))} % of the coupons lost`,
  ];
  return `Assumed: ${startWords(response, assumed)}; ${rest.join("; ")}.`;
}

function startWords(response: AskedQuestion, assumed: PlanAssumptions): string {
  const who = response.order?.[0] ?? "the control";
  const { control, shape, areaLog10Sd, classSd, strokesLogSd, coefficientOfVariation, colourSd } = assumed;
  const kind = response.response === "value" ? response.kind : null;
  if (response.response === "time to first rust")
    return `half of ${who} has rusted by day ${control}, Weibull shape ${shape}`;
  if (response.response === "strokes to breakthrough")
    return `half of ${who} is worn through after ${control} strokes, scatter of the logarithm ${strokesLogSd}`;
  if (response.response === "rusted area" || kind === "area")
    return `half of ${who} has more than ${control} %, scatter of the logarithm (base 10) ${areaLog10Sd}`;
  if (kind === "binary") return `${Math.round(100 * control)} % of ${who} do well`;
  if (response.response === "value" && colourSd !== undefined)
    return `${who} at ${control} ${response.unit}, scatter ${colourSd} ${response.unit}`;
  if (kind === "continuous") return `${who} at ${control}, scatter ${Math.round(100 * coefficientOfVariation)} %`;
  return `${who} around class ${control}, scatter ${classSd} class`;
}
